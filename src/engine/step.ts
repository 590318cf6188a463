/**
 * One step of the whole cabinet by the trapezoidal rule.
 *
 * Order inside a step of h = 2 q from tick n:
 *   1. derivatives at n with the commands that hold from n on (a kink lies on a step's edge, never inside)
 *   2. what does not see the bus: powers asked of trays, sled powers
 *   3. companions of bars, capacitors, banks; then of stages, trays and sleds at the expected voltages
 *   4. nodal solve; again while a clamp changes its branch or a constant-power current is off by more than
 *      `currentTolerance_A`
 *   5. what follows the bus: bars, capacitors, banks, intakes, the trays' capacitors, packs, sensor
 * Nothing is allocated; x0, v0 stay untouched until `accept`, so a step can be thrown away.
 */
import type { Int } from '../base/int.ts';
import type { Network } from '../network/network.ts';
import { copy } from './copy.ts';
import type { Rung } from './rung.ts';

/** Current that a constant-power device may be off by after a step [A]: some ten microvolts at its node. */
export const currentTolerance_A = 5e-3;

/** Solves within one step before its clamps count as cycling. */
const mostSolves: Int = 12;

/**
 * Further solves of the shortest step, which cannot be taken finer: damped ones, for a constant power behind so much
 * resistance that the next current overshoots the last one's error.
 */
const dampedSolves: Int = 60;

/** How a step ends: places in `outcomes` of the stepper. */
export const ending = { done: 0, cycled: 1, notFinite: 2, unsettled: 3 } as const;

/** Places in `Step.figures`. */
export const figure = { surprise: 0, lowest: 1, highest: 2, solves: 3, factorisations: 4 } as const;

export class Step {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly network: Network;
  readonly stateCount: Int;
  readonly nodeCount: Int;
  readonly x0: Float64Array;
  readonly x1: Float64Array;
  readonly dx0: Float64Array;
  readonly v0: Float64Array;
  readonly v1: Float64Array;
  /** Voltages expected at the end of the step, along the last step's slope. */
  readonly guess: Float64Array;
  /** Voltages one step before v0. */
  readonly vPast: Float64Array;
  readonly rhs: Float64Array;
  readonly fixed: Float64Array;
  /**
   * Of the last step: largest distance of a node voltage from what was expected, lowest and highest node voltage [V];
   * solves and factorisations so far. Places: `figure`.
   */
  readonly figures: Float64Array;

  constructor(network: Network) {
    const states = (): Float64Array => new Float64Array(network.stateCount);
    const nodes = (): Float64Array => new Float64Array(network.nodeCount);
    this.network = network;
    this.stateCount = network.stateCount;
    this.nodeCount = network.nodeCount;
    this.x0 = states();
    this.x1 = states();
    this.dx0 = states();
    this.v0 = nodes();
    this.v1 = nodes();
    this.guess = nodes();
    this.vPast = nodes();
    this.rhs = nodes();
    this.fixed = nodes();
    this.figures = new Float64Array(5);
  }

  /** Expects v0 + along (v0 − vPast) at the end of the step. */
  private expect(along: number): void {
    const { nodeCount, guess, v0, vPast } = this;
    for (let k = 0; k < nodeCount; k++) guess[k] = v0[k]! + along * (v0[k]! - vPast[k]!);
  }

  /** Derivatives at the start of the step with the commands that hold now; bars and capacitors take their own. */
  private derive(h: number): void {
    const { x0, v0, dx0, guess } = this;
    const { banks, stages, intakes, trays, sleds, packs, sensor } = this.network;
    banks.flow(dx0, x0, v0);
    intakes.flow(dx0, x0, v0);
    intakes.foresee(x0, dx0, h, v0, guess);
    stages.flow(dx0, x0, v0);
    trays.flow(dx0, x0, v0);
    sleds.flow(dx0, x0);
    packs.flow(dx0, x0, v0);
    sensor.flow(dx0, x0, v0);
  }

  /** Companions, but for what the solve corrects. */
  private begin(rung: Rung, q: number): void {
    const { x0, x1, dx0, v0, guess, fixed, nodeCount } = this;
    const { bars, capacitors, banks, stages, trays, sleds } = this.network;
    trays.begin(x1, rung.trays, q, x0, dx0);
    sleds.begin(x1, rung.sleds, q, x0, dx0);
    for (let k = 0; k < nodeCount; k++) fixed[k] = 0;
    bars.begin(fixed, rung.bars, q, x0, v0);
    capacitors.begin(fixed, rung.capacitors, q, x0, v0);
    banks.begin(fixed, rung.banks, q, x0, dx0);
    stages.begin(rung.stages, q, x0, dx0, guess);
  }

  /** One solve at the voltages expected; true when no clamp has changed and no current is off. */
  private solve(rung: Rung, q: number, expected: Float64Array, damped: boolean): boolean {
    const { x1, v1, rhs, fixed, nodeCount, figures } = this;
    const { stages, trays, sleds } = this.network;
    if (stages.isStale(rung.stages)) this.factor(rung);
    copy(rhs, fixed, nodeCount);
    stages.add(rhs, rung.stages, q);
    trays.add(rhs, x1, expected, damped);
    sleds.add(rhs, x1, expected, damped);
    rung.factor.solve(v1, rhs);
    figures[figure.solves]! += 1;
    return (
      !stages.finish(x1, rung.stages, q, v1) &&
      !(trays.mismatch(x1, v1) > currentTolerance_A) &&
      !(sleds.mismatch(x1, v1) > currentTolerance_A)
    );
  }

  /** Factors the rung's stamped matrix with the stages' present admittances. */
  factor(rung: Rung): void {
    const { stages } = this.network;
    stages.admit(rung.stages);
    rung.factor.factor(stages.node, rung.stages.admittance, stages.count);
    this.figures[figure.factorisations]! += 1;
  }

  /** Writes the figures of the voltages solved; false when they are no longer numbers. */
  private measure(): boolean {
    const { nodeCount, v1, guess, figures } = this;
    let surprise = 0;
    let sum = 0;
    let lowest = Number.MAX_VALUE;
    let highest = -Number.MAX_VALUE;
    for (let k = 0; k < nodeCount; k++) {
      const v = v1[k]!;
      sum += v;
      if (v < lowest) lowest = v;
      if (v > highest) highest = v;
      const d = v > guess[k]! ? v - guess[k]! : guess[k]! - v;
      if (d > surprise) surprise = d;
    }
    if (sum - sum !== 0) return false;
    figures[figure.surprise] = surprise;
    figures[figure.lowest] = lowest;
    figures[figure.highest] = highest;
    return true;
  }

  /** What follows the bus. */
  private finish(rung: Rung, q: number): void {
    const { x0, x1, dx0, v1 } = this;
    const { bars, capacitors, banks, intakes, trays, packs, sensor } = this.network;
    bars.finish(x1, rung.bars, v1);
    capacitors.finish(x1, rung.capacitors, v1);
    banks.finish(x1, rung.banks, q, v1);
    intakes.finish(x1, x0, dx0, rung.intakes, q, v1);
    trays.finish(x1, x0, dx0, q, v1);
    packs.finish(x1, x0, dx0, q, v1);
    sensor.finish(x1, x0, dx0, rung.sensor, q, v1);
  }

  /**
   * Tries a step of h on a prepared rung; `along`: ratio of this step to the last, 0 after a jump; `shortest`: it stands
   * even unsettled. The end stands in x1, v1 until `accept`.
   */
  take(rung: Rung, h: number, along: number, shortest: boolean): Int {
    const q = h / 2;
    this.expect(along);
    this.derive(h);
    this.begin(rung, q);
    const most: Int = shortest ? mostSolves + dampedSolves : mostSolves;
    let expected = this.guess;
    let settled = false;
    for (let solve = 0; solve < most && !settled; solve++) {
      settled = this.solve(rung, q, expected, solve >= mostSolves);
      expected = this.v1;
    }
    if (!settled && !shortest) return ending.cycled;
    if (!this.measure()) return ending.notFinite;
    this.finish(rung, q);
    return settled ? ending.done : ending.unsettled;
  }

  /** Makes the end of the step the present. */
  accept(): void {
    const { nodeCount, stateCount, x0, x1, v0, v1, vPast } = this;
    const { count, demand0_W, demand1_W } = this.network.sleds;
    copy(vPast, v0, nodeCount);
    copy(v0, v1, nodeCount);
    copy(x0, x1, stateCount);
    copy(demand0_W, demand1_W, count);
  }
}
