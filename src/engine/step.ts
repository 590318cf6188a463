/**
 * One step of the whole cabinet, x1 = x0 + p flow0 + q flow1: by the trapezoidal rule with p = q, damped with less (`ladder.ts`).
 *
 * Order inside a step of h = p + q from tick n, each turn taken by every kind of device that has it (`devices/companion.ts`, `corrected-companion.ts`):
 *   1. derivatives at n with the commands that hold from n on (a kink lies on a step's edge, never inside), and what does
 *      not follow the bus: powers asked of trays, sled powers, the past of every companion
 *   2. nodal solve; again while a clamp changes its branch or a nonlinear current is off
 *   3. what follows the bus: bars, capacitors, banks, intakes, the trays' capacitors, packs, sensor
 * Nothing is allocated; x0, v0 stay untouched until `accept`, so a step can be thrown away.
 */
import { copy } from '../base/copy.ts';
import type { Int } from '../base/int.ts';
import { Ends } from '../devices/ends.ts';
import { Waits } from '../devices/waits.ts';
import type { Demand } from '../loads/demand.ts';
import type { Network } from '../network/network.ts';
import { NodeVoltages } from '../nodal/node-voltages.ts';
import type { Rung } from './rung.ts';

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
export const figure = {
  surprise: 0,
  lowest: 1,
  highest: 2,
  solves: 3,
  factorisations: 4,
  due: 5,
  lead: 6,
  weight: 7,
} as const;

export class Step {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly network: Network;
  readonly stateCount: Int;
  readonly nodeCount: Int;
  readonly ends: Ends;
  private readonly voltages: NodeVoltages;
  /** What somebody waits for. */
  readonly waits: Waits;
  /** Power of each profile of the demand at the end of the step [W], and the profile that each sled follows. */
  readonly profile_W: Float64Array;
  private readonly profileOf: Int32Array;
  /** Node voltages foreseen at the end, along the last step's slope, and those one step before the start [V]. */
  readonly guess: Float64Array;
  readonly vPast: Float64Array;
  /**
   * Of the last step: largest distance of a node voltage from what was expected, lowest and highest node voltage [V];
   * solves and factorisations so far; 1 where it ends beyond what somebody waits for; what its start and its end weighed [s].
   * Places: `figure`.
   */
  readonly figures: Float64Array;

  constructor(network: Network, demand: Pick<Demand, 'profileCount' | 'profileOf'>) {
    this.network = network;
    this.stateCount = network.stateCount;
    this.nodeCount = network.nodeCount;
    this.waits = new Waits(network.stages, network.intakes, network.supplies);
    this.ends = new Ends(network.stateCount, network.nodeCount, network.currents.joints.unitCount);
    this.voltages = new NodeVoltages(network.currents.joints);
    this.profile_W = new Float64Array(demand.profileCount);
    this.profileOf = demand.profileOf;
    this.guess = new Float64Array(network.nodeCount);
    this.vPast = new Float64Array(network.nodeCount);
    this.figures = new Float64Array(8);
  }

  /** Foresees v0 + along (v0 − vPast) at the end of the step. */
  private foresee(along: number): void {
    const { nodeCount, guess, vPast } = this;
    const { v0, expected } = this.ends;
    for (let k = 0; k < nodeCount; k++) {
      const v = v0[k]! + along * (v0[k]! - vPast[k]!);
      guess[k] = v;
      expected[k] = v;
    }
  }

  /** Derivatives at the start and companions, but for what the solve corrects. */
  private begin(rung: Rung, p: number, q: number): void {
    const { ends } = this;
    for (const part of rung.companions) part.begin(ends, p, q);
  }

  private isStale(rung: Rung): boolean {
    for (const part of rung.corrected) if (part.isStale()) return true;
    return false;
  }

  private isOff(rung: Rung, q: number): boolean {
    const { ends } = this;
    for (const part of rung.corrected) if (part.isOff(ends, q)) return true;
    return false;
  }

  /** One solve at the voltages expected; true when no clamp has changed and no current is off. */
  private solve(rung: Rung, q: number, damped: boolean): boolean {
    const { ends, figures } = this;
    if (this.isStale(rung)) this.factor(rung);
    for (const part of rung.corrected) part.add(ends, q, damped);
    this.voltages.solve(ends.v1, rung.matrix, ends.current_A);
    figures[figure.solves]! += 1;
    return !this.isOff(rung, q);
  }

  /** Factors the rung's stamped matrix with the conductances of the branches that units are in. */
  factor(rung: Rung): void {
    const { matrix } = rung;
    matrix.begin();
    for (const part of rung.corrected) part.admit(matrix);
    matrix.factor();
    this.figures[figure.factorisations]! += 1;
  }

  /** Writes the figures of the voltages solved; false when they are no longer numbers. */
  private measure(): boolean {
    const { nodeCount, guess, figures } = this;
    const { v1 } = this.ends;
    let surprise = 0;
    let lowest = Number.MAX_VALUE;
    let highest = -Number.MAX_VALUE;
    for (let k = 0; k < nodeCount; k++) {
      const v = v1[k]!;
      const d = Math.abs(v - guess[k]!);
      if (!(d < Number.MAX_VALUE)) return false;
      lowest = v < lowest ? v : lowest;
      highest = v > highest ? v : highest;
      surprise = d > surprise ? d : surprise;
    }
    figures[figure.surprise] = surprise;
    figures[figure.lowest] = lowest;
    figures[figure.highest] = highest;
    return true;
  }

  /**
   * Tries a step of p + q on a rung prepared for q, to an end where the profiles stand at `profile_W`; `along`: ratio of this
   * step to the last, 0 after a jump; `shortest`: it stands even unsettled. The end stands in x1, v1 until `accept`.
   */
  take(rung: Rung, p: number, q: number, along: number, shortest: boolean): Int {
    const { ends, nodeCount, figures, waits } = this;
    const { v1, expected } = ends;
    figures[figure.lead] = p;
    figures[figure.weight] = q;
    this.network.sleds.ask(this.profile_W, this.profileOf);
    this.foresee(along);
    this.begin(rung, p, q);
    const most: Int = shortest ? mostSolves + dampedSolves : mostSolves;
    let settled = false;
    for (let solve = 0; solve < most && !settled; solve++) {
      if (solve > 0) copy(expected, v1, nodeCount);
      settled = this.solve(rung, q, solve >= mostSolves);
    }
    if (!settled && !shortest) return ending.cycled;
    if (!this.measure()) return ending.notFinite;
    for (const part of rung.companions) part.finish(ends, p, q);
    figures[figure.due] = waits.isDue(ends.x1, v1, figures[figure.lowest]!) ? 1 : 0;
    return settled ? ending.done : ending.unsettled;
  }

  /** Makes the end of the step the present. */
  accept(): void {
    const { nodeCount, stateCount, vPast } = this;
    const { x0, x1, v0, v1 } = this.ends;
    const { count, demand0_W, demand1_W } = this.network.sleds;
    copy(vPast, v0, nodeCount);
    copy(v0, v1, nodeCount);
    copy(x0, x1, stateCount);
    copy(demand0_W, demand1_W, count);
  }
}
