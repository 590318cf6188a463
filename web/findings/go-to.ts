/** Goes to where and when a finding was read: its panel into sight, its moment into the view, the cursor on it. */
import { unfold } from '../fold.ts';
import type { Lens } from '../lens.ts';
import type { Place } from '../places.ts';

/** At least this much is shown about a moment [s]. */
const least_s = 0.05;

/** Shows the moment with room around it: four times the stay and no less than 50 ms. */
export function showMoment(lens: Lens, time_s: number, duration_s: number | null): void {
  const span = Math.max(least_s, 4 * (duration_s ?? 0));
  lens.show(time_s - span / 3, time_s + (2 * span) / 3 + (duration_s ?? 0));
  lens.pin(time_s);
}

/** Brings a place of the page into the middle of the screen; the traces where the run has no such panel. */
export function showPlace(place: Place): void {
  const found = document.getElementById(place);
  const target = found === null || found.hidden ? document.getElementById('traces') : found;
  if (target === null) return;
  unfold(target);
  target.scrollIntoView({ block: 'center' });
}
