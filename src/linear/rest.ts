/**
 * The settled point that everything linear is about: the scenario's cabinet under a constant load, with the
 * dead band and the quantum of the share loop at zero (both are steps, which have no slope).
 */

import { BadInput } from '../base/problem.ts';
import { stageMode } from '../devices/stage/stage.ts';
import { advance, firmwareAgenda } from '../engine/advance.ts';
import { type Cabinet, ready } from '../engine/cabinet.ts';
import { makeDemand } from '../loads/make-demand.ts';
import { assemble } from '../network/network.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { asBuilt, type Standing, standAs } from './standing.ts';

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
    // All in step: a task is differentiated whole.
    shelves: scenario.shelves.map((shelf) => ({
      ...shelf,
      values: { ...shelf.values, share_phase_s: 0, line_ripple_ratio: 0 },
    })),
    firmware: {
      ...firmware,
      share: { ...firmware.share, trim_quantum_V: 0, dead_band_ratio: 0 },
      smoothing: { ...firmware.smoothing, dead_band_ratio: 0 },
    },
  };
}

/**
 * Settles the straightened scenario, standing as a run left it. `smoothed_W`: where the trays hold the smoothed load; null: where it settles.
 * Throws BadInput where there is no operating point.
 */
export function restAt(
  scenario: Scenario,
  load_W: number,
  standing: Standing = asBuilt,
  smoothed_W: number | null = null,
): Cabinet {
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
  const arrangement = {
    smoothed_W,
    arrange: (built: Parameters<typeof standAs>[0]) => standAs(built, standing),
  };
  return comeToRest(straight, load_W, (of) => ready(assemble(of), makeDemand(of), 1, undefined, arrangement));
}

/** A scenario under a constant load at rest, its controllers too where they must be run until they are. Throws BadInput. */
export function comeToRest(
  constant: Scenario,
  load_W: number,
  settled: (of: Scenario) => Cabinet = (of) => ready(assemble(of), makeDemand(of), 1),
): Cabinet {
  const { cabinet, isBelow } = startOf(constant, load_W, settled);
  const { share, smoothing } = cabinet.controls;
  const isAtRest = (share.law?.hasRest ?? true) && smoothing.law === null;
  if (isBelow || !isAtRest) runToRest(cabinet, isBelow ? approach_s : 0);
  return cabinet;
}

/** How a load is approached that a controller can only come to in time: from half of it, in a straight line [s]. */
const approach_s = 10;

/**
 * The settled cabinet; where a controller does not say where it rests, and the cabinet cannot start at the load with the
 * commands that such a controller starts from, settled at half the load and on its way.
 */
function startOf(
  straight: Scenario,
  load_W: number,
  settled: (of: Scenario) => Cabinet,
): { readonly cabinet: Cabinet; readonly isBelow: boolean } {
  try {
    return { cabinet: settled(straight), isBelow: false };
  } catch (error) {
    if (straight.controllers.length === 0 || !(error instanceof BadInput)) throw error;
    const load = {
      kind: 'step',
      before_W: load_W / 2,
      after_W: load_W,
      at_s: 0,
      edge_s: approach_s,
    } as const;
    return { cabinet: settled({ ...straight, load }), isBelow: true };
  }
}

/** A controller of the user's own that does not say where it rests is run until it does. */
const restEvery_s = 1;
const restWithin_s = 120;
/** Commands that move less than this in a second stand still: 1 µV of a trim, 10 mW of a tray. */
const still = { trim_V: 1e-6, command_W: 1e-2 } as const;

/** `still_s`: from when on it may have come to rest. */
function runToRest(cabinet: Cabinet, still_s: number): void {
  const { network, controls, log } = cabinet;
  const { stages, trays, shelfCount, scenario } = network;
  const ticks = Math.round(restEvery_s / scenario.tick_s);
  const agenda = firmwareAgenda(cabinet, 0);
  const files = scenario.controllers.map(({ file }) => file).join(', ');
  const refuse = (found: string): never => {
    throw new BadInput([
      {
        severity: 'error',
        file: files,
        path: 'controllers',
        found,
        expected: `a controller that comes to rest within ${restWithin_s} s`,
        mend: 'let it say where it rests (rest and restingMemory in src/firmware/user/contract.ts), or leave out what never rests',
      },
    ]);
  };
  for (let k = 0; k < restWithin_s / restEvery_s; k++) {
    const trims = stages.trim_V.slice(0, shelfCount);
    const commands = trays.command_W.slice();
    if (advance(cabinet, agenda, k * ticks, (k + 1) * ticks, null).ending !== 'reached')
      refuse('a cabinet that leaves its bounds on the way to rest');
    const isStill =
      trims.every((u, j) => Math.abs(stages.trim_V[j]! - u) < still.trim_V) &&
      commands.every((p, j) => Math.abs(trays.command_W[j]! - p) < still.command_W);
    if (!isStill || (k + 1) * restEvery_s <= still_s) continue;
    for (const { signal } of controls.tasks) signal.settle();
    log.entries.length = 0;
    return;
  }
  refuse(`a cabinet whose commands still move after ${restWithin_s} s`);
}

/** Running shelves whose clamp is on at the settled point: their voltage loop does not act there. */
export function clampedShelves({ network }: Cabinet): string[] {
  const { stages } = network;
  return stages.names.filter(
    (_, k) => k < network.shelfCount && stages.running[k] === 1 && stages.mode[k] !== stageMode.linear,
  );
}
