/** A share of scripts/recording-fuzz.ts: mutated recordings are read to finite, rising numbers, or refused with a way out. */
import { expect, test } from 'vitest';
import { mutatedRecording } from '../../../scripts/recording-fuzz/mutated.ts';
import { tried } from '../../../scripts/recording-fuzz/tried.ts';

test('1,500 mutated recordings are read or refused, none crashes, hangs or gives what is no number', () => {
  const endings = Array.from({ length: 1500 }, (_, k) => ({ k, ...tried(mutatedRecording(1, k), k) }));
  expect(endings.filter(({ ending }) => ending === 'wrong')).toEqual([]);
  // Were all refused, or all read, nothing would have been tried.
  const read = endings.filter(({ ending }) => ending === 'read').length;
  expect(read).toBeGreaterThan(500);
  expect(read).toBeLessThan(1300);
});
