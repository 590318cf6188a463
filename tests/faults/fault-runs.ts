/** Runs a shipped scenario with faults added, and reads what became of it. */
import { type Outcome, outcomeOf } from '../../src/analysis/judge/outcome.ts';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { readShipped } from '../scenario/shipped.ts';

export interface Faulted {
  readonly result: Result;
  readonly outcome: Outcome;
}

/** `happens`: events as `events.add` takes them. */
export function faulted(
  name: string,
  changes: Readonly<Record<string, string>>,
  happens: readonly string[] = [],
): Faulted {
  const list = [
    ...Object.entries(changes).map(([path, value]) => ({ path, value })),
    ...happens.map((value) => ({ path: 'events.add', value })),
  ];
  const { scenario } = readShipped(`scenarios/${name}.yaml`, [], { changes: list });
  const result = simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48, 51) });
  const outcome = outcomeOf({
    status: result.status,
    failure: result.failure?.cause ?? null,
    time_s: result.window.to_s,
    log: result.log,
    spans: result.spans,
    sledCount: scenario.sleds.length,
    oscillation: null,
  });
  return { result, outcome };
}

const healthyRuns = new Map<string, Faulted>();

/** The same without a fault, run once for all that compare with it. */
export function healthy(name: string, changes: Readonly<Record<string, string>>): Faulted {
  const key = JSON.stringify([name, changes]);
  const known = healthyRuns.get(key);
  if (known !== undefined) return known;
  const run = faulted(name, changes);
  healthyRuns.set(key, run);
  return run;
}

/** Lowest and highest value of a channel over the judged window. */
export function rangeOf(
  { result }: Faulted,
  channel: string,
): { readonly min: number; readonly max: number } {
  const found = result.extremes.find((e) => e.channel === channel);
  if (found === undefined) throw new Error(`no channel ${channel}`);
  return found;
}

/** Value of a channel in its last bucket. */
export function lastOf({ result }: Faulted, channel: string): number {
  const { channels, max, bucketCount } = result.recording;
  return max[channels.findIndex(({ id }) => id === channel)]![bucketCount - 1]!;
}
