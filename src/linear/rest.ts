/**
 * The settled point that everything linear is about: the scenario's cabinet under a constant load, with the
 * dead band and the quantum of the share loop at zero (both are steps, which have no slope).
 */

import { stageMode } from '../devices/stage.ts';
import { type Cabinet, ready } from '../engine/cabinet.ts';
import { makeDemand } from '../loads/make-demand.ts';
import { assemble } from '../network/network.ts';
import { BadInput } from '../problem.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** The load at which a scenario works hardest in steady operation [W]; null for a load without steady levels. */
export function hardestLoad_W(scenario: Scenario): number | null {
  const { load } = scenario;
  switch (load.kind) {
    case 'constant':
      return load.power_W;
    case 'step':
      return Math.max(load.before_W, load.after_W);
    case 'pulse-train':
      return load.high_W;
    case 'recorded':
      return null;
    default:
      return makeDemand(scenario).peak_W;
  }
}

/** The scenario under a constant load, without what has no slope. */
export function straightened(scenario: Scenario, load_W: number): Scenario {
  const { firmware } = scenario;
  return {
    ...scenario,
    load: { kind: 'constant', power_W: load_W },
    start: 'settled',
    events: [],
    firmware: {
      ...firmware,
      share: { ...firmware.share, trim_quantum_V: 0, dead_band_ratio: 0 },
      smoothing: { ...firmware.smoothing, dead_band_ratio: 0 },
    },
  };
}

/** Settles the straightened scenario. Throws BadInput where there is no operating point. */
export function restAt(scenario: Scenario, load_W: number): Cabinet {
  if (!(load_W >= 0 && load_W < Number.POSITIVE_INFINITY)) {
    throw new BadInput([
      {
        severity: 'error',
        path: 'at',
        found: `an operating point at ${load_W} W`,
        expected: 'a load of 0 W or more',
        mend: 'name the load, for example --at "200 kW"',
      },
    ]);
  }
  const straight = straightened(scenario, load_W);
  return ready(assemble(straight), makeDemand(straight), 1);
}

/** Running shelves whose clamp is on at the settled point: their voltage loop does not act there. */
export function clampedShelves({ network }: Cabinet): string[] {
  const { stages } = network;
  return stages.names.filter(
    (_, k) => k < network.shelfCount && stages.running[k] === 1 && stages.mode[k] !== stageMode.linear,
  );
}
