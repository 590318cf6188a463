/** How much of its range the current share's trim uses. */
import { type Case, channelsOf, extremeOf, worst } from '../record/case.ts';
import { extremeClearOf } from '../record/clear-extremes.ts';
import { shareOf } from '../record/spans.ts';
import { cannotArise, notShown, type Reading } from './reading.ts';
import { withoutShelves } from './sharing.ts';

/**
 * Largest trim over its clamp, clear of AC loss and walk-in; its highest value there, hence never kinder than
 * the steady one.
 */
export function readTrim(c: Case): Reading {
  const clamp_V = c.scenario.firmware.share.trim_limit_V;
  if (!(clamp_V > 0)) return cannotArise('no trim: the current share is off');
  const left_out = withoutShelves(c);
  const trims = channelsOf(c.result, 'shelf-trim').flatMap(({ id, owner, index }) => {
    const extreme = left_out.length === 0 ? extremeOf(c.result, id) : extremeClearOf(c, index, left_out);
    if (extreme === null) return [];
    const down = -extreme.min > extreme.max;
    const ratio = Math.max(extreme.max, -extreme.min) / clamp_V;
    return [{ owner, ratio, time_s: down ? extreme.min_s : extreme.max_s }];
  });
  const most = worst(trims, (t) => t.ratio);
  if (most === null) return notShown('no time in the window is clear of AC loss and walk-in');
  const share_seen = 1 - shareOf(c.result.window, left_out);
  return { value: most.ratio, node: most.owner, time_s: most.time_s, share_seen };
}
