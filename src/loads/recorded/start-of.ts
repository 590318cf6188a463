import { isoOf } from '../../tables/stamps/clock.ts';
import type { ReadTable } from '../../tables/table-reader.ts';
import type { Parts } from './read-parts.ts';

/** Date and time of the first stamp, `first_s` after the clock's own start; null where stamps are relative. */
export function startOf(parts: Parts, first_s: number): string | null {
  const start = parts.clock.start;
  if (start === null) return statedStart(parts.table);
  return isoOf(start.whole_s, start.part_s + first_s);
}

/** Start that the file itself states, for relative stamps. */
function statedStart({ about }: ReadTable): string | null {
  return about.map((text) => /^start (\S+)$/.exec(text)?.[1]).find((start) => start !== undefined) ?? null;
}
