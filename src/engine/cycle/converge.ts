/**
 * The converged cycle of a periodic load: run period after period, and take the slow states (slow-states.ts) ahead to
 * where they come to repeat. How far that is follows from the slopes of the trays' law, which is Newton's method with
 * slopes that are nearly true; what these leave, Anderson's mixing of past periods takes up. Where a period that was
 * gone ahead to changes more than the one before, the slopes are not true here (clamps, an end of the window), and the
 * search goes on from period to period with mixing alone.
 */
import { effectOf } from '../../events/log.ts';
import { advance, type Observer } from '../advance.ts';
import { outside } from '../bounds.ts';
import type { Cabinet } from '../cabinet.ts';
import { firmwareAgenda } from '../firmware-agenda.ts';
import { Mixing } from './mixing.ts';
import { SlowStates } from './slow-states.ts';

const mostCycles = 60;

/** Change over one cycle that counts as converged, on states scaled to about one. */
const tolerance = 1e-5;

/** Farther than this no state is taken at once. */
const farthest = 0.5;

/**
 * How the search for the cycle ended. `lost`: the bus left its bounds on the way, or something stopped or batteries
 * woke; what was reached then is the end of a story that the run must tell, and no start.
 */
export interface Convergence {
  readonly outcome: 'converged' | 'open' | 'lost';
  readonly cycles: number;
}

/** `ahead`: by the slopes of the trays' law; `mixing`: by past periods alone. */
export type Way = 'ahead' | 'mixing';

/** Brings a cabinet into the cycle of its load, with every node inside the bounds of a bus at every step. */
export function converge(cabinet: Cabinet, period: number, way: Way = 'ahead'): Convergence {
  const { recharge } = cabinet.controls;
  recharge.held = true;
  const found = search(cabinet, period, way);
  recharge.held = false;
  return found;
}

function search(cabinet: Cabinet, period: number, way: Way): Convergence {
  const { stepper, network } = cabinet;
  const inside: Observer = {
    edge() {},
    step: () => outside(stepper, network) === null,
  };
  const slow = new SlowStates(cabinet, period);
  const mixing = new Mixing();
  let isAhead = way === 'ahead' && slow.isForeseen;
  let least = Number.POSITIVE_INFINITY;
  for (let cycle = 1; cycle <= mostCycles; cycle++) {
    const before = slow.read();
    const { ending } = advance(cabinet, firmwareAgenda(cabinet, 0), 0, period, inside);
    if (ending !== 'reached' || hasStory(cabinet)) return { outcome: 'lost', cycles: cycle };
    const after = slow.read();
    const change = farthestOf(before, after);
    if (change < tolerance) return { outcome: 'converged', cycles: cycle };
    const foreseen = isAhead && change < least ? slow.ahead(before, after) : null;
    const isTrue = foreseen !== null && farthestOf(before, foreseen) < farthest;
    if (isAhead && !isTrue) {
      isAhead = false;
      mixing.forget();
    }
    least = change;
    const goal = isAhead && foreseen !== null ? foreseen : after;
    const next = mixing.next(
      goal,
      goal.map((value, k) => value - before[k]!),
    );
    if (farthestOf(before, goal) < farthest) slow.write(next);
  }
  return { outcome: 'open', cycles: mostCycles };
}

function farthestOf(before: Float64Array, after: Float64Array): number {
  return after.reduce((most, value, k) => Math.max(most, Math.abs(value - before[k]!)), 0);
}

/** Did something stop, or a battery carry? */
function hasStory({ log }: Cabinet): boolean {
  return log.entries.some(({ what }) => effectOf(what) === 'stops' || effectOf(what) === 'carries');
}
