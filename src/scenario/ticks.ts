/** Times that a run counts in ticks must be whole ones; a time between two is refused with both named. */
import { formatQuantity } from '../base/quantity.ts';
import type { Sheet } from './sheet.ts';
import { problemAt } from './text/document.ts';

/** Number of ticks in a time, or null when it is not whole. */
export function wholeTicks(time_s: number, tick_s: number): number | null {
  const ticks = time_s / tick_s;
  const nearest = Math.round(ticks);
  // A decimal time over a decimal tick is off by a few units in the last place, never by more.
  return Math.abs(ticks - nearest) <= Math.max(1e-9, nearest * 1e-14) ? nearest : null;
}

export function refuseBrokenTicks(sheet: Sheet): void {
  const tick = sheet.number('tick');
  if (!Number.isFinite(tick)) return;
  for (const [path, { field, value, origin }] of sheet.cells) {
    if (field.kind !== 'quantity' || field.spec.ticks !== true || typeof value !== 'number') continue;
    if (wholeTicks(value, tick) !== null) continue;
    const below = Math.floor(value / tick);
    const show = (ticks: number): string => formatQuantity(ticks * tick, 'time', 15);
    sheet.problems.push(
      problemAt(
        origin,
        path,
        formatQuantity(value, 'time'),
        `a whole number of ticks of ${formatQuantity(tick, 'time')}`,
        below === 0 ? `write ${show(1)}` : `write ${show(below)} or ${show(below + 1)}`,
      ),
    );
  }
}
