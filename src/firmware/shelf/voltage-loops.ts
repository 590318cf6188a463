/** Which shelves run their sampled voltage loops in one task: those of one timing. */
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Site } from '../site.ts';
import type { LoopGroup } from '../user/user-laws.ts';
import type { UserVoltage } from '../user/user-voltage.ts';
import { VoltageLoop } from './voltage-loop.ts';

/**
 * The sampled loops of a cabinet: a task for each timing, in the order of their first shelves. `ownOf` makes a law of the
 * user's own for each.
 */
export function voltageLoops(
  site: Site,
  shelves: readonly ShelfValues[],
  seed: number,
  ownOf: ((group: LoopGroup) => UserVoltage) | null = null,
): VoltageLoop[] {
  const groups = new Map<string, number[]>();
  shelves.forEach((s, k) => {
    if (!(s.loop_period_s > 0)) return;
    const timing = JSON.stringify([s.loop_period_s, s.loop_latency_s, s.loop_jitter_s]);
    groups.set(timing, [...(groups.get(timing) ?? []), k]);
  });
  return [...groups.values()].map((members, at, all) => {
    const name = all.length === 1 ? 'voltage loop' : `voltage loop of ${site.shelves.names[members[0]!]}`;
    return new VoltageLoop(site, name, shelves, members, seed + 6607 * (at + 1), ownOf);
  });
}
