/**
 * The share loop put to trials in time, dead band, quantum, clamps and modes on: spread set points, sensors that
 * differ, one that lies, frames that are lost, no quantum, no dead band, a shelf that leaves, ratings that differ.
 */
import { advance, firmwareAgenda } from '../../engine/advance.ts';
import { type Cabinet, ready } from '../../engine/cabinet.ts';
import { makeDemand } from '../../loads/make-demand.ts';
import { assemble } from '../../network/network.ts';
import type { Scenario } from '../../scenario/scenario.ts';

export interface ShareCase {
  readonly name: string;
  /** Largest deviation of a running shelf from the mean at the end, over rated. */
  readonly error_ratio: number;
  /** Time until every shelf stays within 1 % of rated, and its cycle, of where it ends; null when never. */
  readonly settling_s: number | null;
  /** Peak to peak of the busiest shelf's current over the last second, over rated: a limit cycle where it is not 0. */
  readonly cycle_ratio: number;
  /** Largest trim at the end over its clamp. */
  readonly trim_ratio: number;
  readonly bus_V: number;
}

const begin_s = 0.5;
const usualLook_s = 5;
const sample_s = 0.01;
const near_ratio = 0.01;

type Tamper = (cabinet: Cabinet, tick: number) => void;

/** What a case differs in: what happens before the look begins and as it begins, and how long it looks. */
interface ShareTrial {
  readonly before?: Tamper;
  readonly tamper?: Tamper;
  readonly look_s?: number;
}

/** What a receiver makes of the samples: `spoil` changes a copy, so that the sender's buffer stays true. */
function spoiled(cabinet: Cabinet, spoil: (sample: Float64Array, turn: number) => void): void {
  const { signal } = cabinet.controls.share;
  const read = signal.read.bind(signal);
  const copy = new Float64Array(signal.size);
  let turn = 0;
  signal.read = (): Float64Array => {
    copy.set(read());
    spoil(copy, turn++);
    return copy;
  };
}

/** Runs one case: the cabinet settles whole, then `tamper` happens, then five seconds pass, or `look_s`. */
function runCase(name: string, scenario: Scenario, load_W: number, trial: ShareTrial): ShareCase {
  const end_s = begin_s + (trial.look_s ?? usualLook_s);
  const at: Scenario = {
    ...scenario,
    load: { kind: 'constant', power_W: load_W },
    start: 'settled',
    events: [],
  };
  const cabinet = ready(assemble(at), makeDemand(at), 1);
  const { network, stepper, controls } = cabinet;
  const { stages, shelfCount } = network;
  const ticks = (s: number): number => Math.round(s / at.tick_s);
  const agenda = firmwareAgenda(cabinet, 0);
  trial.before?.(cabinet, 0);
  advance(cabinet, agenda, 0, ticks(begin_s), null);
  trial.tamper?.(cabinet, ticks(begin_s));
  cabinet.ladder.kick(Number.POSITIVE_INFINITY);
  const rows: Float64Array[] = [];
  const per = (k: number): number => stepper.x0[stages.offset + k]! / stages.columns.rated_A[k]!;
  for (let s = begin_s; s < end_s - 1e-9; s += sample_s) {
    advance(cabinet, agenda, ticks(s), ticks(s + sample_s), null);
    rows.push(Float64Array.from({ length: shelfCount }, (_, k) => per(k)));
  }
  const running = Array.from({ length: shelfCount }, (_, k) => k).filter((k) => stages.running[k] === 1);
  const last = rows.at(-1)!;
  const mean = running.reduce((sum, k) => sum + last[k]!, 0) / running.length;
  const tail = rows.slice(-Math.round(1 / sample_s));
  const cycle = Math.max(
    ...running.map((k) => Math.max(...tail.map((row) => row[k]!)) - Math.min(...tail.map((row) => row[k]!))),
  );
  const rest = last.map((_, k) => tail.reduce((sum, row) => sum + row[k]!, 0) / tail.length);
  const isNear = (row: Float64Array): boolean =>
    running.every((k) => Math.abs(row[k]! - rest[k]!) < near_ratio + cycle);
  let settled = rows.length;
  while (settled > 0 && isNear(rows[settled - 1]!)) settled--;
  return {
    name,
    error_ratio: Math.max(...running.map((k) => Math.abs(last[k]! - mean))),
    settling_s: settled >= rows.length - 2 ? null : settled * sample_s,
    cycle_ratio: cycle,
    trim_ratio: Math.max(
      ...running.map((k) => Math.abs(controls.share.trim_V[k]!) / at.firmware.share.trim_limit_V),
    ),
    bus_V: Math.min(...running.map((k) => stepper.v0[stages.node[k]!]!)),
  };
}

/**
 * All cases on a scenario's cabinet at one load, or those named. Throws BadInput where there is no operating point.
 */
export function shareCases(scenario: Scenario, load_W: number, only?: readonly string[]): ShareCase[] {
  const { share } = scenario.firmware;
  const withShare = (change: Partial<typeof share>): Scenario => ({
    ...scenario,
    firmware: { ...scenario.firmware, share: { ...share, ...change } },
  });
  const withShelves = (change: (k: number) => Partial<Scenario['shelves'][number]['values']>): Scenario => ({
    ...scenario,
    shelves: scenario.shelves.map((shelf, k) => ({ ...shelf, values: { ...shelf.values, ...change(k) } })),
  });
  const outer = (k: number): number => (k % 2 === 0 ? 1 : -1);
  const cases: { readonly name: string; readonly at: Scenario; readonly trial: ShareTrial }[] = [];
  const run = (name: string, at: Scenario, tamper?: Tamper, more: ShareTrial = {}): void => {
    cases.push({ name, at, trial: tamper === undefined ? more : { ...more, tamper } });
  };
  run('as it is', scenario);
  run(
    'set points ±0.25 %, alternating',
    withShelves((k) => ({ set_point_offset_ratio: 0.0025 * outer(k) })),
  );
  run('sensors ±1 %, alternating', scenario, (cabinet) =>
    spoiled(cabinet, (y) => {
      for (let k = 0; k < y.length; k++) y[k]! *= 1 + 0.01 * outer(k);
    }),
  );
  run('one sensor reads 10 % high', scenario, (cabinet) =>
    spoiled(cabinet, (y) => {
      y[0]! *= 1.1;
    }),
  );
  run('one sensor reads nothing', scenario, (cabinet) =>
    spoiled(cabinet, (y) => {
      y[0] = 0;
    }),
  );
  run('nine frames of ten lost, the last one kept', scenario, (cabinet) => {
    const held = new Float64Array(cabinet.controls.share.signal.size);
    spoiled(cabinet, (y, turn) => {
      if (turn % 10 === 0) held.set(y);
      else y.set(held);
    });
  });
  run('all frames lost, the last one kept', scenario, (cabinet) => {
    let held: Float64Array | null = null;
    spoiled(cabinet, (y) => {
      held ??= y.slice();
      y.set(held);
    });
  });
  run('no quantum', withShare({ trim_quantum_V: 0 }));
  run('no dead band', withShare({ dead_band_ratio: 0 }));
  run('no dead band, quantum 50 mV', withShare({ dead_band_ratio: 0, trim_quantum_V: 0.05 }));
  run('a shelf leaves', scenario, ({ controls }) => controls.shelfGuard.takeOut(0, 0, 'taken out'));
  run('a shelf joins, walking in', scenario, ({ controls }, tick) => controls.walkIn.restore(0, tick), {
    before: ({ controls }, tick) => controls.walkIn.lose(0, tick),
    look_s: joining_s(scenario) + usualLook_s,
  });
  run(
    'one shelf of three modules, droop to match',
    withShelves((k) => (k === 0 ? threeModules(scenario, true) : {})),
  );
  run(
    'one shelf of three modules, droop as the others',
    withShelves((k) => (k === 0 ? threeModules(scenario, false) : {})),
  );
  return cases
    .filter(({ name }) => only === undefined || only.includes(name))
    .map(({ name, at, trial }) => runCase(name, at, load_W, trial));
}

/** From AC to full power: the shelf's wait and its walk-in. */
function joining_s({ shelves }: Scenario): number {
  const values = shelves[0]!.values;
  return values.start_delay_s + values.walk_in_s;
}

/** Half a shelf, its gains in proportion; its droop too, so that it takes half the current, or not. */
function threeModules(
  scenario: Scenario,
  isMatched: boolean,
): Partial<Scenario['shelves'][number]['values']> {
  const { values } = scenario.shelves[0]!;
  const ratio = 3 / values.module_count_count;
  return {
    module_count_count: 3,
    droop_ohm: isMatched ? values.droop_ohm / ratio : values.droop_ohm,
    proportional_gain_A_per_V: values.proportional_gain_A_per_V * ratio,
    integral_gain_A_per_Vs: values.integral_gain_A_per_Vs * ratio,
  };
}
