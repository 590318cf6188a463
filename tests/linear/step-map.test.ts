import { describe, expect, it } from 'vitest';
import { stageMode } from '../../src/devices/stage/stage.ts';
import { advance } from '../../src/engine/advance.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { carryingStretches } from '../../src/linear/carried-stretches.ts';
import { stateScales } from '../../src/linear/labels.ts';
import { hyperPeriod, PeriodMap } from '../../src/linear/period-map.ts';
import { restAt } from '../../src/linear/rest.ts';
import { linearise } from '../../src/linear/sampled.ts';
import { Steps } from '../../src/linear/steps.ts';
import { Stretches, stepMap } from '../../src/linear/stretches.ts';
import { shipped } from './scenario.ts';

describe('the differentiated step map', () => {
  it('moves a small disturbance as one step of the engine does, state by state', () => {
    const cabinet = restAt(shipped('single-step'), 200e3);
    const system = linearise(cabinet);
    const { plant } = system;
    const { stepper, network } = cabinet;
    const ticks = system.rungTicks;
    const M = stepMap(plant.A, [], plant.n, ticks * system.tick_s);
    const scales = stateScales(network);
    const rest = stepper.x0.slice();
    const restV = stepper.v0.slice();
    expect(stepper.take(0, ticks)).toBe('done');
    const resting = stepper.x1.slice();
    let worst = 0;
    for (let j = 0; j < plant.n; j += 7) {
      // A state on its own leaves the nodes' balance; the engine's start voltages come from the same slopes.
      const d = 1e-4;
      const unit = new Float64Array(plant.n);
      unit[j] = d;
      stepper.x0.set(rest);
      stepper.v0.set(restV);
      const full = plant.expand(unit);
      for (let k = 0; k < rest.length; k++) stepper.x0[k]! += full.x[k]!;
      for (let k = 0; k < restV.length; k++) stepper.v0[k]! += full.v[k]!;
      stepper.forget();
      expect(stepper.take(0, ticks)).toBe('done');
      expect(network.stages.mode.slice(0, network.shelfCount).every((m) => m === stageMode.linear)).toBe(
        true,
      );
      plant.places.forEach((place, i) => {
        const moved = (stepper.x1[place]! - resting[place]!) / scales[place]! / d;
        worst = Math.max(worst, Math.abs(moved - M[i * plant.n + j]!));
      });
    }
    // The step's own correction of constant-power currents may leave a little; scaled entries are of the order of 1.
    expect(worst).toBeLessThan(2e-3);
  });

  it('carries the same step by step through sparse factors as multiplied out, a rest of a step included', () => {
    const { plant, commandColumns, commandCount, tick_s, rungTicks } = linearise(
      restAt(shipped('single-step'), 200e3),
    );
    const { n, A } = plant;
    const rung = 60 * rungTicks;
    const steps = new Steps(A, commandColumns, n, tick_s, rung);
    const whole = new Stretches(A, commandColumns, n, tick_s, rung);
    const ticks = 7 * rung + 3 * rungTicks;
    const carried = [steps.pieces(ticks), whole.pieces(ticks)].map((pieces) =>
      carryingStretches(pieces, (carry) => {
        const z = Float64Array.from({ length: n + commandCount }, (_, k) => (((k * 29) % 17) - 8) / 8);
        for (const piece of pieces) carry(piece, z);
        return z;
      }),
    );
    const far = carried[0]!.reduce((most, x, k) => Math.max(most, Math.abs(x - carried[1]![k]!)), 0);
    expect(far).toBeLessThan(1e-9 * carried[1]!.reduce((most, x) => Math.max(most, Math.abs(x)), 0));
    // What makes it worth it: next to nothing fills in.
    const { factors } = steps.pieces(rung)[0]!.by;
    const own = A.filter((x, k) => x !== 0 && k % (n + 1) !== 0).length;
    expect(factors.length).toBeLessThan(1.3 * own);
  });

  it('carries a disturbance of a trim over a hyper-period as the running cabinet does, firmware included', () => {
    const cabinet = restAt(shipped('single-step'), 200e3, { kernel: 'fast' });
    const system = linearise(cabinet);
    const ticks = hyperPeriod(system)!;
    const map = new PeriodMap(
      system,
      ticks,
      new Stretches(system.plant.A, system.commandColumns, system.plant.n, system.tick_s, system.rungTicks),
    );
    const z = new Float64Array(system.size);
    const at = system.labels.indexOf('S3 trim');
    const d_V = 0.02;
    z[at] = d_V / 0.1;
    // The trim is remembered; it reaches the stage when the task next runs.
    cabinet.controls.share.trim_V[2]! += d_V;
    const agenda = firmwareAgenda(cabinet, 0);
    const periods = 30;
    const seen: number[] = [];
    const foreseen: number[] = [];
    const before = cabinet.controls.share.trim_V[2]! - d_V;
    for (let k = 0; k < periods; k++) {
      map.carrying((carry) => carry(z));
      advance(cabinet, agenda, k * ticks, (k + 1) * ticks, null);
      foreseen.push(z[at]! * 0.1);
      seen.push(cabinet.controls.share.trim_V[2]! - before);
    }
    for (let k = 0; k < periods; k++) expect(Math.abs(seen[k]! - foreseen[k]!)).toBeLessThan(0.01 * d_V);
    expect(Math.abs(seen.at(-1)!)).toBeLessThan(0.3 * d_V);
  });
});
