/**
 * Where a slow swing of a load stands at its top: until then a run has shown less of the load than its scenario names.
 * The triangle of the generators, which is highest a quarter of its length after each beginning.
 */
import type { Crest } from './demand.ts';
import { triangle } from './synthetic/swing.ts';

/** So much of the highest that is ever reached counts as the top. */
const top_ratio = 0.95;
/** Iterations that are looked through for the highest: a trend about as long as they are takes many to come to its top. */
const mostIterations = 100_000;

/** A trend that moves whole iterations, by where each begins: jitter aside, which moves them little within a trend. */
export function trendCrest(iteration: number, swing: number): Crest {
  // Of a slow trend some iteration begins close to every top.
  const isSlow = (1 - top_ratio) * swing >= 2 * iteration;
  const first = isSlow ? firstOfSlow(iteration, swing) : firstOfQuick(iteration, swing);
  return {
    what: 'the top of the trend',
    next: (from_tick) => {
      const k = first(from_tick);
      return { from_tick: k * iteration, to_tick: (k + 1) * iteration };
    },
  };
}

/** The first iteration from a tick on that begins while the trend is at its top. */
type First = (from_tick: number) => number;

function firstOfSlow(iteration: number, swing: number): First {
  const rise = (top_ratio / 4) * swing;
  const fall = swing / 2 - rise;
  return (from_tick) => {
    const turn = Math.ceil((from_tick - fall) / swing);
    const at = (begins: number): number => Math.ceil(Math.max(from_tick, begins + rise) / iteration);
    const k = at(turn * swing);
    return k * iteration <= turn * swing + fall ? k : at((turn + 1) * swing);
  };
}

/** Of one that is hardly longer than its iterations none may come near the top, or a beat brings one there much later. */
function firstOfQuick(iteration: number, swing: number): First {
  const levelOf = (k: number): number => triangle((k * iteration) / swing);
  let highest = 0;
  for (let k = 0; k < mostIterations; k++) highest = Math.max(highest, levelOf(k));
  return (from_tick) => {
    let k = Math.ceil(from_tick / iteration);
    const last = k + mostIterations;
    while (k < last && levelOf(k) < top_ratio * highest) k++;
    return k;
  };
}

/** A swell of what comes at random, from its top on for as long as it takes on average until something comes. */
export function swellCrest(wait: number, swing: number): Crest {
  return {
    what: 'the top of the swell',
    next: (from_tick) => {
      const from = (Math.max(0, Math.ceil(from_tick / swing - 0.25)) + 0.25) * swing;
      return { from_tick: from, to_tick: from + wait };
    },
  };
}
