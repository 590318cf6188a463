/**
 * The swing that parts those that die from those that grow: the push between them is closed in upon, and the swing read while it
 * has not yet decided, between a push that dies and one that grows.
 */
import type { Swing } from './fundamental.ts';
import { fundamentalOf } from './fundamental.ts';
import { type Run, traced } from './simulated.ts';

/** `run.push` must grow; null where a tenth of it does not die. The more `halvings`, the longer the swing stays undecided. */
export function edgeSwing(run: Run, halvings = 36): Swing | null {
  const peaks = (push: number): { early: number; late: number } => {
    const { time_s, value } = traced({ ...run, push });
    const most = (from_s: number, to_s: number): number =>
      value.reduce(
        (top, x, k) => (time_s[k]! >= from_s && time_s[k]! < to_s ? Math.max(top, Math.abs(x)) : top),
        0,
      );
    const { from_s, length_s } = run;
    return { early: most(from_s, 2 * from_s), late: most(length_s - from_s, length_s) };
  };
  const grows = (push: number): boolean => {
    const { early, late } = peaks(push);
    return late > early;
  };
  let [dies, lives] = [run.push / 10, run.push];
  if (grows(dies) || !grows(lives)) return null;
  for (let k = 0; k < halvings; k++) {
    const middle = (dies + lives) / 2;
    if (grows(middle)) lives = middle;
    else dies = middle;
  }
  const { time_s, value } = traced({ ...run, push: lives });
  const from = time_s.findIndex((t) => t >= run.from_s);
  // Until it has decided: half as large again as it was at first.
  const { early } = peaks(lives);
  const decided = value.findIndex((x, k) => k > from && Math.abs(x) > 1.5 * early);
  const to = decided < 0 ? value.length : decided;
  return fundamentalOf(time_s.slice(from, to), value.slice(from, to), run.floor);
}
