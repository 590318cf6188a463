/** A slow branch is a share and a time; one without the other is none. */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
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
      // Under what is stated: that has a place.
      const key = share > 0 ? 'slow_share' : 'slow_time';
      const path = `${family}.${text}.${key}`;
      const origin = sheet.cells.get(path)?.origin ?? null;
      // All units of one model: once is enough.
      const once = JSON.stringify([family, key, origin]);
      if (said.has(once)) continue;
      said.add(once);
      const [percent, time] = [formatPercent(share, 3), formatQuantity(time_s, 'time')];
      const [found, expected] =
        share > 0
          ? [
              `${percent} with a slow_time of ${time}`,
              `a slow_time of at least ${formatQuantity(least_s, 'time')}`,
            ]
          : [`${time} with a slow_share of ${percent}`, 'a slow_share above 0'];
      say(sheet, origin, path, found, expected, 'state both, or neither');
    }
}
