/** Shipped scenarios under changes, run by the engine alone, and what tests read from such a run. */
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { readShipped } from '../scenario/shipped.ts';

export type Changes = Readonly<Record<string, string>>;

/** A shipped scenario under changes. */
export function shippedWith(name: string, changes: Changes = {}): Scenario {
  const list = Object.entries(changes).map(([path, value]) => ({ path, value }));
  return readShipped(`scenarios/${name}.yaml`, [], { changes: list }).scenario;
}

/** The engine's result for a shipped scenario without a recorded load. */
export function simulated(name: string, changes: Changes = {}): Result {
  const scenario = shippedWith(name, changes);
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48, 48.5, 51) });
}

/** Lowest and highest node voltage over the judged window [V]. */
export function busOf(result: Result): { readonly min: number; readonly max: number } {
  const nodes = new Set(
    result.recording.channels.filter((c) => c.kind === 'node-voltage').map(({ id }) => id),
  );
  const read = result.extremes.filter((e) => nodes.has(e.channel));
  return { min: Math.min(...read.map((e) => e.min)), max: Math.max(...read.map((e) => e.max)) };
}

/** Largest swing of any node voltage from `from_s` to the end [V]. */
export function swingAfter(result: Result, from_s: number): number {
  const { channels, edges_s, bucketCount, min, max } = result.recording;
  let most = 0;
  channels.forEach(({ kind }, c) => {
    if (kind !== 'node-voltage') return;
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let b = 0; b < bucketCount; b++) {
      if (edges_s[b]! < from_s) continue;
      low = Math.min(low, min[c]![b]!);
      high = Math.max(high, max[c]![b]!);
    }
    most = Math.max(most, high - low);
  });
  return most;
}

/** How often a kind of entry stands in the log. */
export function countOf(result: Result, what: string): number {
  return result.log.filter((entry) => entry.what === what).length;
}
