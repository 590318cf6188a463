import { expect, test } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';

test('what is expected and how to mend it are as long as a page at most', () => {
  const endless = new BadInput([
    { severity: 'error', found: 'x', expected: 'y'.repeat(1e6), mend: 'z'.repeat(1e6) },
  ]);
  expect(endless.message.length).toBeLessThan(7000);
  expect(endless.message).toContain('(1000000 characters in all)');
});
