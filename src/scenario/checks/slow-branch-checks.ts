/** A slow branch is a share and a time; one without the other is none. */
import { formatQuantity } from '../../base/quantity.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { say } from '../text/say.ts';

/** Steps take what flows beside a capacitance as its slope foresees it: the branch must be slow against them. */
const least_s = 0.01;

export function checkSlowBranches(structure: Structure, sheet: Sheet): void {
  const said = new Set<string>();
  for (const family of ['trays', 'banks'] as const)
    for (const { text } of fittedUnits(structure, family, sheet)) {
      const at = (key: string): number => sheet.number(`${family}.${text}.${key}`);
      const [share, time_s] = [at('slow_share'), at('slow_time')];
      if (share === 0 && time_s === 0) continue;
      if (share > 0 && time_s >= least_s) continue;
      const key = share > 0 ? 'slow_time' : 'slow_share';
      const path = `${family}.${text}.${key}`;
      const origin =
        sheet.cells.get(path)?.origin ??
        sheet.cells.get(`${family}.${text}.${share > 0 ? 'slow_share' : 'slow_time'}`)?.origin ??
        null;
      // All units of one model: once is enough.
      const once = JSON.stringify([family, key, origin]);
      if (said.has(once)) continue;
      said.add(once);
      const found = share > 0 ? formatQuantity(time_s, 'time') : formatQuantity(share, 'ratio');
      const expected =
        share > 0
          ? `at least ${formatQuantity(least_s, 'time')}, with the slow_share of ${formatQuantity(share, 'ratio')}`
          : `above 0, with the slow_time of ${formatQuantity(time_s, 'time')}`;
      say(sheet, origin, path, found, expected, 'state slow_share and slow_time together, or neither');
    }
}
