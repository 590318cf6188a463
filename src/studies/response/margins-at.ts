/** Margins and least damping about one settled point: what a search over loads, states and tolerances asks. */
import type { Mode } from '../../linear/modes.ts';
import { clampedShelves } from '../../linear/rest.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { empties, grows, isBelow1kHz, isJudged } from '../damping.ts';
import type { Loop } from './loop.ts';
import { loopMargins } from './loops.ts';
import { defaults } from './respond.ts';
import { type SettledAsked, settledAt } from './settled.ts';

/** A mode that decides, and whose it is most. */
export interface WorstMode {
  readonly damping_ratio: number;
  readonly frequency_Hz: number;
  readonly growth_per_s: number;
  readonly owner: string;
}

export interface MarginsAt {
  /** Why there is no settled point; null where there is one. */
  readonly reason: string | null;
  readonly loops: readonly Loop[];
  /** Shelves at a clamp there, whose voltage loops do not act. */
  readonly clamped: readonly string[];
  /** The fastest mode that grows; null where none does. */
  readonly growing: WorstMode | null;
  /** The least damped that swings below 1 kHz, and from there to where the model is judged. */
  readonly slow: WorstMode | null;
  readonly fast: WorstMode | null;
}

/** A point at which the cabinet does not settle. */
export function unsettled(reason: string): MarginsAt {
  return { reason, loops: [], clamped: [], growing: null, slow: null, fast: null };
}

/** The same margins and modes that `respond` gives there, without its curves. Throws BadInput. */
export function marginsAt(scenario: Scenario, asked: SettledAsked): MarginsAt {
  const settled = settledAt(scenario, asked, { frequencies: [], highest_Hz: defaults.high_Hz });
  const { cabinet, modes, growing, emptying_per_s } = settled;
  const swinging = modes.filter(({ frequency_Hz }) => frequency_Hz > 0 && isJudged(frequency_Hz));
  const least = (list: readonly Mode[]): WorstMode | null =>
    worstOf(list, (a, b) => a.damping_ratio - b.damping_ratio);
  return {
    reason: null,
    loops: loopMargins(settled, growing),
    clamped: clampedShelves(cabinet),
    growing: worstOf(
      modes.filter((mode) => grows(mode) && !empties(mode, emptying_per_s)),
      (a, b) => b.real_per_s - a.real_per_s,
    ),
    slow: least(swinging.filter(({ frequency_Hz }) => isBelow1kHz(frequency_Hz))),
    fast: least(swinging.filter(({ frequency_Hz }) => !isBelow1kHz(frequency_Hz))),
  };
}

function worstOf(modes: readonly Mode[], order: (a: Mode, b: Mode) => number): WorstMode | null {
  const [first] = [...modes].sort(order);
  if (first === undefined) return null;
  const { damping_ratio, frequency_Hz, real_per_s, owners } = first;
  return { damping_ratio, frequency_Hz, growth_per_s: real_per_s, owner: owners[0]?.name ?? '' };
}
