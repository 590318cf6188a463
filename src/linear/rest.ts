/**
 * The settled point that everything linear is about: the scenario's cabinet under a constant load, with the
 * dead band and the quantum of the share loop at zero, and sampled voltage loops without converters, quantum and jitter (all
 * are steps, which have no slope, or chance).
 */

import { BadInput } from '../base/problem.ts';
import { stageMode } from '../devices/stage/stage.ts';
import { advance } from '../engine/advance.ts';
import { type Cabinet, ready } from '../engine/cabinet.ts';
import { approach_s, restsByItself, restWithin_s, runToRest } from '../engine/cycle/run-to-rest.ts';
import type { KernelChoice } from '../engine/fast/kernel-form.ts';
import { firmwareAgenda } from '../engine/firmware-agenda.ts';
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
      values: {
        ...shelf.values,
        share_phase_s: 0,
        line_ripple_ratio: 0,
        loop_jitter_s: 0,
        loop_voltage_bits_count: 0,
        loop_current_bits_count: 0,
        loop_command_quantum_A: 0,
      },
    })),
    firmware: {
      ...firmware,
      share: { ...firmware.share, trim_quantum_V: 0, dead_band_ratio: 0 },
      smoothing: { ...firmware.smoothing, dead_band_ratio: 0 },
    },
  };
}

export interface RestOptions {
  /** As a run left it; as built otherwise. */
  readonly standing?: Standing;
  /** Where the trays hold the smoothed load [W]; null: where it settles. */
  readonly smoothed_W?: number | null;
  /** The compiled kernel, which costs a memory, for who runs the cabinet on. */
  readonly kernel?: KernelChoice;
}

/** Settles the straightened scenario. Throws BadInput where there is no operating point. */
export function restAt(
  scenario: Scenario,
  load_W: number,
  { standing = asBuilt, smoothed_W = null, kernel = kernelToRest(scenario) }: RestOptions = {},
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
  return restUnder(straightened(scenario, load_W), load_W, { standing, smoothed_W, kernel });
}

/** Settles a scenario under a constant load as it is, with what has no slope. Throws BadInput where there is no operating point. */
export function restUnder(
  constant: Scenario,
  load_W: number,
  { standing = asBuilt, smoothed_W = null, kernel = kernelToRest(constant) }: RestOptions = {},
): Cabinet {
  const arrangement = {
    smoothed_W,
    arrange: (built: Parameters<typeof standAs>[0]) => standAs(built, standing),
  };
  return comeToRest(constant, load_W, (of) => ready(assemble(of), makeDemand(of), 1, kernel, arrangement));
}

/** A scenario under a constant load at rest, its controllers too where they must be run until they are. Throws BadInput. */
export function comeToRest(
  constant: Scenario,
  load_W: number,
  settled: (of: Scenario) => Cabinet = (of) => ready(assemble(of), makeDemand(of), 1, kernelToRest(of)),
): Cabinet {
  const { cabinet, isBelow } = startOf(constant, load_W, settled);
  if (isBelow || !restsByItself(cabinet)) {
    const found = runToRest(cabinet, isBelow ? approach_s : 0, still);
    if (found !== 'rests') refuseUnrest(constant, found);
  }
  // Tried on another one: this one stays where it was settled, to the bit.
  const isTried = constant.controllers.some(({ replaces }) => replaces === 'voltage-loop');
  if (isTried && !standsStill(settled(constant))) refuseUnrest(constant, 'moves');
  return cabinet;
}

/** So long the bus must stay where a module of the user's own says that it rests, and so near [s, of nominal]. */
const held_s = 5e-3;
const held_ratio = 1e-4;

/** A module's word of where it rests is not enough: run on, the bus stays where it is. */
function standsStill(cabinet: Cabinet): boolean {
  const { network, stepper } = cabinet;
  const { tick_s, nominal_V } = network.scenario;
  const before = stepper.v0.slice();
  const { ending } = advance(cabinet, firmwareAgenda(cabinet, 0), 0, Math.round(held_s / tick_s), null);
  return (
    ending === 'reached' && before.every((v, k) => Math.abs(stepper.v0[k]! - v) < held_ratio * nominal_V)
  );
}

/** Plain, for a settled point takes no step; a controller may have to be run to rest. */
function kernelToRest({ controllers }: Scenario): KernelChoice {
  return controllers.length > 0 ? 'fast' : 'plain';
}

/** No quantum is in the way here: 1 µV of a trim, 10 mW of a tray in a second. */
const still = { trim_V: 1e-6, command_W: 1e-2 } as const;

function refuseUnrest({ controllers }: Scenario, how: 'moves' | 'leaves'): never {
  throw new BadInput([
    {
      severity: 'error',
      file: controllers.map(({ file }) => file).join(', '),
      path: 'controllers',
      found:
        how === 'leaves'
          ? 'a cabinet that leaves its bounds on the way to rest'
          : `a cabinet whose commands still move after ${restWithin_s} s`,
      expected: `a controller that comes to rest within ${restWithin_s} s`,
      mend: 'let it say where it rests (rest and restingMemory in src/firmware/user/contract.ts), or leave out what never rests',
    },
  ]);
}

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

/** Running shelves whose clamp is on at the settled point: their voltage loop does not act there. */
export function clampedShelves({ network }: Cabinet): string[] {
  const { stages } = network;
  return stages.names.filter(
    (_, k) => k < network.shelfCount && stages.running[k] === 1 && stages.mode[k] !== stageMode.linear,
  );
}
