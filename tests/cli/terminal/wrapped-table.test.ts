/** Rows whose last cell is words: it goes on below where a line would be wider than the terminal. */
import { expect, it } from 'vitest';
import { plain } from '../../../src/cli/terminal/paint.ts';
import { wrappedTable } from '../../../src/cli/terminal/study/table-text.ts';

const words = 'opened at the errors of all shelves at once, sampling and latency included';

it('goes on below its own column while there is room for it', () => {
  expect(wrappedTable(['loop', ''], [['a', words]], plain, { width: 60 })).toEqual([
    '  loop',
    '  a     opened at the errors of all shelves at once,',
    '        sampling and latency included',
  ]);
});

it('stands below its row where there is none, and an empty one nowhere', () => {
  const rows = [
    ['a'.repeat(30), words],
    ['b', null],
  ];
  const lines = wrappedTable(['loop', 'why'], rows, plain, { width: 60 });
  expect(lines).toEqual([
    '  loop',
    '      why',
    `  ${'a'.repeat(30)}`,
    '      opened at the errors of all shelves at once, sampling',
    '      and latency included',
    '  b',
  ]);
});
