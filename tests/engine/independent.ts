/**
 * An integrator that shares nothing with the engine but the device contract and the firmware: the equations of
 * every device, called through `flow` and `inject`, node voltages from Kirchhoff's current law, integrated
 * between firmware samples (those of supervision too, which the engine lets sleep) by Hairer's ODEX (npm package odex: extrapolation, explicit) at tight tolerance.
 */
import { createRequire } from 'node:module';
import { type Cabinet, ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { happen, schedule } from '../../src/engine/happen/happen.ts';
import type { Demand } from '../../src/loads/demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

/** The part of npm package odex 2 used here; its own typings do not pass our flags. */
interface OdexSolver {
  maxSteps: number;
  initialStepSize: number;
  relativeTolerance: number;
  absoluteTolerance: number;
  solve(
    f: (t: number, y: number[]) => number[],
    t0: number,
    y0: number[],
    tEnd: number,
  ): { readonly y: number[]; readonly outcome: number };
}

const { Solver } = createRequire(import.meta.url)('odex') as {
  readonly Solver: new (n: number) => OdexSolver;
};

/** Smallest change of a node's current per volt that counts as a shunt at the node [S]. */
const shunt_S = 1;

export class Independent {
  readonly cabinet: Cabinet;
  private readonly agenda;
  private readonly into: Float64Array;
  private readonly other: Float64Array;
  private readonly vTry: Float64Array;
  private readonly dx: Float64Array;
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  evaluations = 0;
  private tick = 0;
  private readonly supervised: boolean;

  /** `supervised`: watchers are asked at every supervision sample, too; without it nobody watches. */
  constructor(scenario: Scenario, demand: Demand, supervised = false) {
    this.supervised = supervised;
    this.cabinet = ready(assemble(scenario), demand, 1);
    const { network, stepper, controls, log } = this.cabinet;
    this.agenda = firmwareAgenda(this.cabinet, 0);
    for (const event of scenario.events) {
      schedule(event, scenario.tick_s, this.agenda, (along, tick) =>
        happen({ event, along, tick, network, controls, stepper, log, removed: () => {} }),
      );
    }
    this.into = new Float64Array(network.nodeCount);
    this.other = new Float64Array(network.nodeCount);
    this.vTry = new Float64Array(network.nodeCount);
    this.dx = new Float64Array(network.stateCount);
    this.low = new Float64Array(network.sleds.count);
    this.high = new Float64Array(network.sleds.count);
  }

  /** Currents into every node at x and v. */
  private currents(out: Float64Array, x: Float64Array, v: Float64Array): void {
    out.fill(0);
    for (const device of this.cabinet.network.devices) device.inject(out, x, v);
  }

  private flow(x: Float64Array, v: Float64Array): void {
    const { network } = this.cabinet;
    for (const device of network.devices) device.guide(x, v);
    for (const device of network.devices) device.flow(this.dx, x, v);
  }

  /** Node voltages at x: Newton node by node (bars carry no current that depends on the present voltage). */
  voltages(v: Float64Array, x: Float64Array): void {
    const { into, other, vTry } = this;
    const step = 1e-4;
    const bare: number[] = [];
    for (let pass = 0; pass < 6; pass++) {
      this.currents(into, x, v);
      for (let n = 0; n < v.length; n++) vTry[n] = v[n]! + step;
      this.currents(other, x, vTry);
      for (let n = 0; n < v.length; n++) {
        const slope = (other[n]! - into[n]!) / step;
        if (-slope > shunt_S) v[n]! -= into[n]! / slope;
        else if (pass === 0) bare.push(n);
      }
    }
    // A node without a shunt: its inductors' currents sum to zero, so their derivatives must too.
    const { bars, banks } = this.cabinet.network;
    for (const n of bare) {
      const imbalance = (at: number): number => {
        v[n] = at;
        bars.flow(this.dx, x, v);
        banks.flow(this.dx, x, v);
        into.fill(0);
        bars.inject(into, this.dx);
        banks.inject(into, this.dx);
        return into[n]!;
      };
      const a = imbalance(50);
      const b = imbalance(51);
      v[n] = 50 - a / (b - a);
    }
  }

  /** Advances to `tick`, stopping wherever firmware, an event or a kink of the load is due. */
  reach(tick: number): void {
    while (this.tick < tick) {
      const { demand, log } = this.cabinet;
      log.tick = this.tick;
      if (this.agenda.next === this.tick) this.agenda.runDue(this.tick);
      const next = Math.min(tick, this.agenda.next, demand.nextKink(this.tick), this.supervise());
      this.advance(this.tick, next);
      this.tick = next;
    }
  }

  /** Lets the watchers run where one is busy; gives the tick of the next supervision sample. */
  private supervise(): number {
    if (!this.supervised) return Number.POSITIVE_INFINITY;
    const { tick, cabinet } = this;
    const { watchers, supervision } = cabinet.controls;
    if (tick % supervision === 0) {
      const lowest_V = cabinet.stepper.v0.reduce((a, b) => Math.min(a, b), Number.MAX_VALUE);
      if (watchers.some((watcher) => watcher.isBusy(lowest_V))) {
        for (const watcher of watchers) watcher.run(tick);
      }
    }
    return tick - (tick % supervision) + supervision;
  }

  /** Integrates from `tick0` to `tick1`; nothing is due in between. */
  private advance(tick0: number, tick1: number): void {
    const { stepper, network } = this.cabinet;
    const { tick_s } = network.scenario;
    const { sleds } = network;
    const n = network.stateCount;
    stepper.demandAt(this.low, tick0);
    stepper.demandAt(this.high, tick1);
    const v = stepper.v0.slice();
    const x = new Float64Array(n);
    const span = (tick1 - tick0) * tick_s;
    // Time in microseconds: the library floors its first step at 1e-4 of a time unit.
    const solver = new Solver(n);
    solver.absoluteTolerance = 1e-8;
    solver.relativeTolerance = 1e-9;
    solver.initialStepSize = 0.2;
    solver.maxSteps = 100_000;
    const { y, outcome } = solver.solve(
      (t, state) => {
        this.evaluations++;
        x.set(state);
        const along = (t * 1e-6) / span;
        for (let k = 0; k < sleds.count; k++) {
          sleds.demand0_W[k] = this.low[k]! + along * (this.high[k]! - this.low[k]!);
        }
        this.voltages(v, x);
        this.flow(x, v);
        return Array.from(this.dx, (d) => d * 1e-6);
      },
      0,
      Array.from(stepper.x0),
      span * 1e6,
    );
    if (outcome !== 0)
      throw new Error(`the independent integrator did not reach ${tick1} (outcome ${outcome})`);
    stepper.x0.set(y);
    sleds.demand0_W.set(this.high);
    this.voltages(v, stepper.x0);
    stepper.v0.set(v);
  }
}
