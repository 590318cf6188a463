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
import type { Demand } from '../loads/demand.ts';
import type { Network } from '../network/network.ts';
import { Factor } from './factor.ts';
import { FastKernel, type StepVectors } from './fast/fast-kernel.ts';
import { type SolveCode, solveCode } from './solve-code.ts';

/** Current that a constant-power device may be off by after a step [A]: some ten microvolts at its node. */
export const currentTolerance_A = 5e-3;

/** Solves within one step before its clamps count as cycling. */
const mostSolves = 12;

/**
 * Further solves of the shortest step, which cannot be taken finer: damped ones, for a constant power behind so much
 * resistance that the next current overshoots the last one's error.
 */
const dampedSolves = 60;

/** In the order of the numbers that the compiled kernel gives back. */
const outcomes: readonly StepOutcome[] = ['done', 'cycled', 'not-finite', 'unsettled'];

/** Rungs that are kept prepared; steps of other lengths share the last ones in turn. */
const mostSlots = 48;

/**
 * `cycled`: nothing settled, the step is to be taken again finer; `unsettled`: the same at the shortest step there is,
 * one tick, whose end stands as the last solve has it.
 */
export type StepOutcome = 'done' | 'cycled' | 'unsettled' | 'not-finite';

/** `fast`: the compiled kernel where the platform has it; `plain`: the loops below, which are the truth. */
export type KernelChoice = 'fast' | 'plain';

interface Slot {
  readonly index: number;
  /** Address of the rung's directory in the fast kernel's memory; 0 in the plain one. */
  address: number;
  readonly factor: Factor;
  ticks: number;
  epoch: number;
  readonly linear: Uint8Array;
}

export class Stepper {
  readonly network: Network;
  readonly x0: Float64Array;
  readonly v0: Float64Array;
  readonly x1: Float64Array;
  readonly v1: Float64Array;
  readonly dx0: Float64Array;
  /** Voltages expected at the end of the step, along the last step's slope. */
  readonly guess: Float64Array;
  /** Largest distance of a node voltage from what was expected [V]: how smooth the last step was. */
  surprise_V = 0;
  /** Lowest node voltage at the end of the last step [V]; nodes of sleds that are not there do not count. */
  lowest_V = 0;
  /** Highest node voltage at the end of the last step [V]. */
  highest_V = 0;
  solves = 0;
  factorisations = 0;
  private readonly demand: Demand;
  private readonly profiles: Float64Array;
  private readonly tick_s: number;
  private readonly rhs: Float64Array;
  private readonly fixed: Float64Array;
  /** The solve written out for this network, or null where the plain loops serve. */
  readonly code: SolveCode | null;
  private readonly slots = new Map<number, Slot>();
  /** The slot of the last step. */
  private last: Slot | null = null;
  private spare = 0;
  private epoch = 0;
  private readonly vPast: Float64Array;
  /** The compiled kernel, or null where the plain loops serve. */
  readonly fast: FastKernel | null;
  /** 1 for the nodes of sleds that are not there, as of that many changes. */
  private readonly aside: Uint8Array;
  private changes = 0;
  private pastTicks = 0;
  private ticks = 0;

  constructor(network: Network, demand: Demand, tick_s: number, kernel: KernelChoice = 'fast') {
    this.network = network;
    this.demand = demand;
    this.tick_s = tick_s;
    const states = (): Float64Array => new Float64Array(network.stateCount);
    const nodes = (): Float64Array => new Float64Array(network.nodeCount);
    const vectors: StepVectors = {
      x0: states(),
      x1: states(),
      dx0: states(),
      v0: nodes(),
      v1: nodes(),
      guess: nodes(),
      vPast: nodes(),
      rhs: nodes(),
      fixed: nodes(),
    };
    this.fast = kernel === 'fast' ? FastKernel.make(network, vectors, mostSlots) : null;
    // The compiled kernel solves by itself; writing the solve out would cost a compilation for nothing.
    this.code = this.fast === null ? solveCode(network.ordering) : null;
    this.x0 = vectors.x0;
    this.x1 = vectors.x1;
    this.dx0 = vectors.dx0;
    this.v0 = vectors.v0;
    this.v1 = vectors.v1;
    this.guess = vectors.guess;
    this.vPast = vectors.vPast;
    this.rhs = vectors.rhs;
    this.fixed = vectors.fixed;
    this.profiles = new Float64Array(demand.profileCount);
    this.aside = new Uint8Array(network.nodeCount);
  }

  /** Which kernel takes the steps. */
  get kernel(): KernelChoice {
    return this.fast === null ? 'plain' : 'fast';
  }

  /** Writes the demand at `tick` into `out`, one value per sled [W]. */
  demandAt(out: Float64Array, tick: number): void {
    const { demand, profiles } = this;
    const { share } = this.network.sleds.columns;
    demand.at(profiles, tick);
    for (let k = 0; k < out.length; k++) out[k] = share[k]! * profiles[demand.profileOf[k]!]!;
  }

  /** A conductance has changed for good (a bar opened): prepared rungs are stale. */
  restamp(): void {
    this.epoch++;
  }

  /** Forgets the slope of the past: the next step expects the present voltages. */
  forget(): void {
    this.pastTicks = 0;
  }

  private slot(ticks: number): Slot {
    const { last } = this;
    if (last !== null && last.ticks === ticks && last.epoch === this.epoch) return last;
    let slot = this.slots.get(ticks);
    if (slot === undefined) {
      const full = this.slots.size >= mostSlots;
      if (full) {
        const keys = [...this.slots.keys()];
        const victim = keys[mostSlots / 2 + (this.spare++ % (mostSlots / 2))]!;
        slot = this.slots.get(victim)!;
        this.slots.delete(victim);
      } else {
        slot = {
          index: this.slots.size,
          address: 0,
          factor: new Factor(this.network.ordering, this.code),
          ticks: 0,
          epoch: -1,
          linear: this.fast?.u8(this.network.stages.count) ?? new Uint8Array(this.network.stages.count),
        };
        this.fast?.adopt(slot.factor);
      }
      slot.ticks = 0;
      this.slots.set(ticks, slot);
    }
    if (slot.ticks !== ticks || slot.epoch !== this.epoch) this.prepare(slot, ticks);
    this.last = slot;
    return slot;
  }

  private prepare(slot: Slot, ticks: number): void {
    const { bars, capacitors, banks, sleds, devices } = this.network;
    const q = (ticks * this.tick_s) / 2;
    for (const device of devices) device.prepare(slot.index, q);
    const { factor } = slot;
    factor.clear();
    const yBar = bars.admittance(slot.index);
    for (let k = 0; k < bars.count; k++) factor.addBetween(bars.from[k]!, bars.to[k]!, yBar[k]!);
    const yCap = capacitors.admittance(slot.index);
    for (let k = 0; k < capacitors.count; k++) factor.addToGround(capacitors.node[k]!, yCap[k]!);
    const yBank = banks.admittance(slot.index);
    for (let k = 0; k < banks.count; k++) factor.addToGround(banks.node[k]!, yBank[k]!);
    for (let k = 0; k < sleds.count; k++) factor.addToGround(sleds.node[k]!, -sleds.carried_S[k]!);
    slot.ticks = ticks;
    slot.epoch = this.epoch;
    if (this.fast !== null) {
      if (slot.address === 0) slot.address = this.fast.enrol(slot.index, factor, slot.linear);
      this.fast.renew(slot.address, slot.index);
    }
    this.refactor(slot);
  }

  private refactor(slot: Slot): void {
    const { stages } = this.network;
    if (this.fast !== null) {
      this.fast.call.factor(slot.address);
      return;
    }
    slot.factor.factor(stages.node, stages.admittance(slot.index));
    for (let k = 0; k < stages.count; k++) slot.linear[k] = stages.mode[k] === 0 ? 1 : 0;
    this.factorisations++;
  }

  private isStale(slot: Slot): boolean {
    const { stages } = this.network;
    for (let k = 0; k < stages.count; k++) {
      if (slot.linear[k] !== (stages.mode[k] === 0 ? 1 : 0)) return true;
    }
    return false;
  }

  /** Derivatives at the start of the step with the commands that hold now; bars and capacitors take their own. */
  private derive(step_s: number): void {
    const { x0, v0, dx0, guess } = this;
    const { banks, stages, intakes, trays, sleds, packs, sensor } = this.network;
    banks.flow(dx0, x0, v0);
    intakes.flow(dx0, x0, v0);
    intakes.foresee(x0, dx0, step_s, v0, guess);
    stages.flow(dx0, x0, v0);
    trays.flow(dx0, x0, v0);
    sleds.flow(dx0, x0);
    packs.flow(dx0, x0, v0);
    sensor.flow(dx0, x0, v0);
  }

  /** Tries a step of `ticks` from `tick`. The result stands in x1, v1 until `accept`. */
  take(tick: number, ticks: number): StepOutcome {
    const outcome = this.fast === null ? this.takePlain(tick, ticks) : this.takeFast(this.fast, tick, ticks);
    if (this.network.sleds.absent > 0) this.lowest_V = this.lowestPresent();
    return outcome;
  }

  /** Lowest node voltage but for the sleds that are not there [V]. */
  private lowestPresent(): number {
    const { v1, aside } = this;
    const { sleds } = this.network;
    if (sleds.changes !== this.changes) {
      this.changes = sleds.changes;
      for (let k = 0; k < sleds.count; k++) aside[sleds.node[k]!] = sleds.present[k] ? 0 : 1;
    }
    let lowest = Number.MAX_VALUE;
    for (let n = 0; n < v1.length; n++) if (!aside[n] && v1[n]! < lowest) lowest = v1[n]!;
    return lowest;
  }

  private takeFast(fast: FastKernel, tick: number, ticks: number): StepOutcome {
    this.ticks = ticks;
    const { ripple } = this.network.intakes;
    if (ripple.isOn) ripple.span(tick, tick + ticks);
    this.demandAt(this.network.sleds.demand1_W, tick + ticks);
    const along = this.pastTicks > 0 ? ticks / this.pastTicks : 0;
    const outcome = fast.call.step(this.slot(ticks).address, ticks * this.tick_s, along, ticks > 1 ? 0 : 1);
    const { result } = fast;
    this.surprise_V = result[0]!;
    this.lowest_V = result[1]!;
    this.solves = result[2]!;
    this.factorisations = result[3]!;
    this.highest_V = result[4]!;
    return outcomes[outcome]!;
  }

  private takePlain(tick: number, ticks: number): StepOutcome {
    const { x0, x1, dx0, v0, v1, guess, rhs, fixed, network } = this;
    const { bars, capacitors, banks, stages, intakes, trays, sleds, packs, sensor } = network;
    const h = ticks * this.tick_s;
    const q = h / 2;
    this.ticks = ticks;
    const along = this.pastTicks > 0 ? ticks / this.pastTicks : 0;
    for (let k = 0; k < v0.length; k++) guess[k] = v0[k]! + along * (v0[k]! - this.vPast[k]!);
    if (intakes.ripple.isOn) intakes.ripple.span(tick, tick + ticks);
    this.demandAt(sleds.demand1_W, tick + ticks);
    this.derive(h);
    const slot = this.slot(ticks);
    const rung = slot.index;
    trays.begin(x1, rung, q, x0, dx0);
    sleds.begin(x1, rung, q, x0, dx0);
    fixed.fill(0);
    bars.begin(fixed, rung, q, x0, v0);
    capacitors.begin(fixed, rung, q, x0, v0);
    banks.begin(fixed, rung, q, x0, dx0);
    stages.begin(rung, q, x0, dx0, guess);
    let expected = guess;
    let settled = false;
    const most = ticks > 1 ? mostSolves : mostSolves + dampedSolves;
    for (let solve = 0; solve < most && !settled; solve++) {
      const damped = solve >= mostSolves;
      if (this.isStale(slot)) this.refactor(slot);
      rhs.set(fixed);
      stages.add(rhs, rung, q);
      trays.add(rhs, x1, expected, damped);
      sleds.add(rhs, x1, expected, damped);
      slot.factor.solve(v1, rhs);
      this.solves++;
      expected = v1;
      const changed = stages.finish(x1, rung, q, v1);
      settled =
        !changed &&
        !(trays.mismatch(x1, v1) > currentTolerance_A) &&
        !(sleds.mismatch(x1, v1) > currentTolerance_A);
    }
    if (!settled && ticks > 1) return 'cycled';
    let surprise = 0;
    let sum = 0;
    let lowest = Number.MAX_VALUE;
    let highest = -Number.MAX_VALUE;
    for (let k = 0; k < v1.length; k++) {
      const v = v1[k]!;
      sum += v;
      if (v < lowest) lowest = v;
      if (v > highest) highest = v;
      const d = v > guess[k]! ? v - guess[k]! : guess[k]! - v;
      if (d > surprise) surprise = d;
    }
    if (sum - sum !== 0) return 'not-finite';
    this.surprise_V = surprise;
    this.lowest_V = lowest;
    this.highest_V = highest;
    bars.finish(x1, rung, v1);
    capacitors.finish(x1, rung, v1);
    banks.finish(x1, rung, q, v1);
    intakes.finish(x1, x0, dx0, rung, q, v1);
    trays.finish(x1, x0, dx0, q, v1);
    packs.finish(x1, x0, dx0, q, v1);
    sensor.finish(x1, x0, dx0, rung, q, v1);
    return settled ? 'done' : 'unsettled';
  }

  /** Makes the end of the step the present. */
  accept(): void {
    if (this.fast !== null) {
      this.fast.call.accept();
      this.pastTicks = this.ticks;
      return;
    }
    this.vPast.set(this.v0);
    this.pastTicks = this.ticks;
    this.v0.set(this.v1);
    this.x0.set(this.x1);
    this.network.sleds.demand0_W.set(this.network.sleds.demand1_W);
  }
}
