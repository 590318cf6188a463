import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { spanKinds } from '../../src/events/spans.ts';

/** Kind and words of every row; a row without a kind goes on with the last. */
function tableOf(page: string): Map<string, Set<string>> {
  const words = new Map<string, Set<string>>();
  let kind = '';
  for (const line of page.split('\n').filter((text) => text.startsWith('|'))) {
    const cells = line.split('|').map((cell) => cell.trim());
    if (cells.length !== 7) continue;
    kind = cells[1]!.replaceAll('`', '') || kind;
    const own = words.get(kind) ?? new Set();
    for (const [, word] of cells[3]!.matchAll(/`([^`]+)`/g)) own.add(word!);
    words.set(kind, own);
  }
  return words;
}

describe('the page of spans', () => {
  const table = tableOf(readFileSync(new URL('../../src/events/spans.md', import.meta.url), 'utf8'));

  it.each(Object.entries(spanKinds).filter(([kind]) => kind !== 'altered'))(
    'names %s with its words',
    (kind, { what }) => {
      const words: readonly string[] = what;
      expect([...(table.get(kind) ?? ['no row'])].sort()).toEqual(
        words.filter((word) => word !== '').toSorted(),
      );
    },
  );

  it('has a row for what events alter', () => {
    expect(table.has('altered')).toBe(true);
  });
});
