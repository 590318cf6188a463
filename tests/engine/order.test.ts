/**
 * The order of the whole scheme, measured: everything a cabinet has but its sampled firmware (whose instants do not
 * move with the step), at steps halved again and again, against the finest. Errors are those of all node voltages and
 * states at common instants, each over its own swing, as root of the mean square. A tick of 1/32 µs, so that every
 * rung can be halved.
 */
import { describe, expect, it } from 'vitest';
import { sine } from '../../src/base/sine.ts';
import { stageMode } from '../../src/devices/stage/stage.ts';
import { advance } from '../../src/engine/advance.ts';
import { Agenda } from '../../src/engine/agenda.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { DampedPairs } from '../../src/engine/damped-pairs.ts';
import type { Demand } from '../../src/loads/demand.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { shippedWith } from './runs.ts';

type Changes = Parameters<typeof shippedWith>[1];

function fineTicked(name: string, changes: Changes = {}): Scenario {
  const scenario = shippedWith(name, changes);
  return { ...scenario, tick_s: scenario.tick_s / 8 };
}

interface Trace {
  /** Voltages and states at each instant. */
  readonly rows: readonly Float64Array[];
  readonly modes: ReadonlySet<number>;
}

/** The cabinet at common instants, its steps from the ladder (`refine`), all of `fixed` ticks or in damped pairs of `paired`. */
function traced(
  scenario: Scenario,
  demand: Demand,
  until_s: readonly number[],
  step: { readonly refine?: number; readonly fixed?: number; readonly paired?: number },
): Trace {
  const cabinet = ready(assemble(scenario), demand, step.refine ?? 1);
  const { stepper, ladder, network } = cabinet;
  const rows: Float64Array[] = [];
  const modes = new Set<number>();
  let tick = 0;
  for (const end_s of until_s) {
    const end = Math.round(end_s / scenario.tick_s);
    if (step.refine !== undefined) {
      const done = ladder.done.bind(ladder);
      ladder.done = (ticks, surprise_V) => {
        for (const mode of network.stages.mode) modes.add(mode);
        done(ticks, surprise_V);
      };
      advance(cabinet, new Agenda(), tick, end, null);
      ladder.done = done;
      tick = end;
    }
    const pairs = new DampedPairs();
    while (tick < end) {
      const { fixed = 0, paired = 0 } = step;
      pairs.ask();
      const ticks = paired > 0 ? pairs.next(0, paired, paired) : fixed;
      expect(stepper.take(tick, ticks, paired > 0 ? pairs.rungTicks : ticks)).toBe('done');
      stepper.accept();
      tick += ticks;
      if (paired === 0) continue;
      pairs.done();
      const rest = pairs.next(0, paired, paired);
      expect(stepper.take(tick, rest, pairs.rungTicks)).toBe('done');
      stepper.accept();
      tick += rest;
    }
    rows.push(Float64Array.of(...stepper.v0, ...stepper.x0));
  }
  return { rows, modes };
}

/** Root of the mean square of the differences, each over the swing of its quantity; what does not move is left out. */
function distance(a: Trace, b: Trace): number {
  let sum = 0;
  let count = 0;
  for (let k = 0; k < a.rows[0]!.length; k++) {
    const values = b.rows.map((row) => row[k]!);
    const swing = Math.max(...values) - Math.min(...values);
    if (!(swing > 1e-4 * Math.abs(values[0]!))) continue;
    for (let j = 0; j < values.length; j++) {
      sum += ((a.rows[j]![k]! - values[j]!) / swing) ** 2;
      count++;
    }
  }
  return Math.sqrt(sum / count);
}

/** Orders between neighbours of a list of errors at steps that halve. */
function orders(errors: readonly number[]): number[] {
  return errors.slice(1).map((error, k) => Math.log2(errors[k]! / error));
}

const every = (from_s: number, by_s: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => from_s + (k + 1) * by_s);

/** A load that begins at rest, and its slope too. */
function raisedCosine(scenario: Scenario): Demand {
  return {
    ...makeDemand(scenario),
    nextKink: () => Number.POSITIVE_INFINITY,
    at: (out, tick) => {
      const part = sine((Math.PI * tick * scenario.tick_s) / 8e-3);
      out.fill(100e3 + 100e3 * part * part);
    },
  };
}

describe('the whole scheme', () => {
  it('is of second order on a smooth load, clamps off', () => {
    const scenario = fineTicked('single-step');
    const swing = raisedCosine(scenario);
    const instants = every(0, 0.4e-3, 20);
    const at = (fixed: number): Trace => traced(scenario, swing, instants, { fixed });
    const finest = at(50);
    const errors = [1600, 800, 400, 200].map((fixed) => distance(at(fixed), finest));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(1.9);
    for (const order of orders(errors)) expect(order).toBeLessThan(2.2);
  });

  it('is of second order in damped pairs too', () => {
    const scenario = fineTicked('single-step');
    const swing = raisedCosine(scenario);
    const instants = every(0, 0.4e-3, 20);
    const finest = traced(scenario, swing, instants, { fixed: 50 });
    const errors = [12800, 6400, 3200, 1600].map((paired) =>
      distance(traced(scenario, swing, instants, { paired }), finest),
    );
    // Of 400 to 50 µs; below, what is left is how sharply a solve is repeated (5 mA a unit), for a damped step foresees no slope.
    for (const order of orders(errors)) expect(order).toBeGreaterThan(1.6);
    expect(orders(errors).at(-1)!).toBeGreaterThan(1.8);
  });

  it('is of second order after a kink, with the ladder grading its steps', () => {
    const scenario = fineTicked('single-step', { 'load.at': '0.2 ms' });
    const instants = every(0.2e-3, 0.1e-3, 60);
    const at = (refine: number): Trace => traced(scenario, makeDemand(scenario), instants, { refine });
    const finest = at(16);
    const errors = [1, 2, 4].map((refine) => distance(at(refine), finest));
    for (const order of orders(errors)) expect(order).toBeGreaterThan(1.8);
    // What a run is taken at: within 0.03 % of each swing.
    expect(errors[0]).toBeLessThan(3e-4);
  });

  it.each([
    ['the current limit of shelves', { 'load.after': '300 kW' }, stageMode.limit],
    ['the slew limit of shelves', { 'load.edge': '25 us' }, stageMode.slewUp],
  ])('is of second order through %s', (_, changes, mode) => {
    const scenario = fineTicked('single-step', { 'load.at': '0.2 ms', ...changes });
    const instants = every(0.2e-3, 0.1e-3, 60);
    const at = (refine: number): Trace => traced(scenario, makeDemand(scenario), instants, { refine });
    const finest = at(16);
    expect(finest.modes).toContain(mode);
    const errors = [1, 2, 4].map((refine) => distance(at(refine), finest));
    // Where a clamp takes hold inside a step differs from step to step: the mean of two halvings.
    expect(Math.log2(errors[0]! / errors[2]!) / 2).toBeGreaterThan(1.8);
    expect(errors[0]).toBeLessThan(3e-4);
  });
});
