/** A share of scripts/scenario-fuzz.ts: spoilt scenarios are read, and some run, or refused with a place and a way out. */
import { expect, test } from 'vitest';
import { spoiltScenario } from '../../scripts/scenario-fuzz/spoilt.ts';
import { triedScenario } from '../../scripts/scenario-fuzz/tried.ts';

test('160 spoilt scenarios are read or refused in words; what is read runs', () => {
  const endings = Array.from({ length: 160 }, (_, k) => ({
    k,
    ...triedScenario(spoiltScenario(2, k), k % 8 === 0),
  }));
  expect(endings.filter(({ ending }) => ending === 'wrong')).toEqual([]);
  // Were all refused, or all read, nothing would have been tried.
  const accepted = endings.filter(({ ending }) => ending !== 'refused').length;
  expect(accepted).toBeGreaterThan(25);
  expect(accepted).toBeLessThan(135);
  expect(endings.filter(({ ending }) => ending === 'ran').length).toBeGreaterThan(2);
});

test.each([
  [3581, 'a feeder is named where the cabinet has none'],
  [8517, 'a section is named where the bars have none'],
])('number %i is refused in words: %s', (number) => {
  expect(triedScenario(spoiltScenario(1, number), false).ending).toBe('refused');
});
