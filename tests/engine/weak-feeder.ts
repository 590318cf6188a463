/** The smallest cabinet on a weak feeder: what the feeder carries, found by simulation. */
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { smallCabinet } from './small-cabinet.ts';

/** S_k of the feeder: what one shelf's 36 kW are most of [VA]. */
export const weak_VA = 40e3;

export interface WeakFeeder {
  readonly load: string;
  readonly duration?: string;
  readonly events?: readonly string[];
  readonly changes?: Readonly<Record<string, string>>;
}

/**
 * One shelf and one sled behind |Z| = V²/S_k, power factor 1. A brown-out at 30 % lies below the voltage of the largest power
 * for any angle of Z, which is half the open-circuit voltage at least.
 */
export function weakFeeder(
  reactanceRatio: number,
  { load, duration, events, changes }: WeakFeeder,
): Scenario {
  return smallCabinet({
    trays: 0,
    banks: 1,
    batteries: 0,
    sleds: 1,
    load,
    duration: duration ?? '20 ms',
    events: events ?? [],
    changes: {
      'feeders.gives_way': '1',
      'feeders.short_circuit_power': `${weak_VA / 1e3} kVA`,
      'feeders.reactance_ratio': `${reactanceRatio}`,
      'shelves.power_factor': '1',
      'shelves.brown_out': '30 %',
      ...changes,
    },
  });
}

export function ran(scenario: Scenario): Result {
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of() });
}

export function hasCollapsed({ spans }: Result): boolean {
  return spans.some(({ kind }) => kind === 'collapsed');
}

export function lastMean(result: Result, id: string): number {
  return result.means.columns.get(id)!.at(-1)!;
}

/** The largest constant AC power that the feeder carries, and the smallest DC load above it: bisection over the load [W]. */
export function largestCarried(
  reactanceRatio: number,
  changes: Readonly<Record<string, string>> = {},
): { readonly carried_W: number; readonly collapses: Result } {
  let low = 1e3;
  let high = weak_VA;
  let carried_W = Number.NaN;
  let collapses: Result | null = null;
  while (high - low > 20 || collapses === null) {
    const load_W = (low + high) / 2;
    const result = ran(
      weakFeeder(reactanceRatio, { load: `{ kind: constant, power: ${load_W} W }`, changes }),
    );
    if (hasCollapsed(result)) {
      high = load_W;
      collapses = result;
    } else {
      low = load_W;
      carried_W = lastMean(result, 'F1.ac_power_W');
    }
  }
  return { carried_W, collapses };
}
