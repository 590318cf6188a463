/**
 * Steps the cabinet: prepares a rung for each length of step, gives the kernel its demand and holds both ends of the
 * step. The step itself stands in step.ts.
 */
import type { Demand } from '../loads/demand.ts';
import type { Network } from '../network/network.ts';
import { CompiledKernel } from './fast/compiled-kernel.ts';
import { type Kernel, type KernelChoice, plainKernel } from './fast/kernel-form.ts';
import { Rung } from './rung.ts';
import { figure, Step } from './step.ts';

/** In the order of `ending` in step.ts. */
const outcomes: readonly StepOutcome[] = ['done', 'cycled', 'not-finite', 'unsettled'];

/** Rungs that are kept prepared; steps of other lengths share the last ones in turn. */
const mostSlots = 48;

/**
 * `cycled`: nothing settled, the step is to be taken again finer; `unsettled`: the same at the shortest step there is,
 * one tick, whose end stands as the last solve has it.
 */
export type StepOutcome = 'done' | 'cycled' | 'unsettled' | 'not-finite';

interface Slot {
  readonly rung: Rung;
  ticks: number;
  epoch: number;
}

export class Stepper {
  readonly network: Network;
  readonly step: Step;
  readonly kernel: Kernel;
  readonly x0: Float64Array;
  readonly v0: Float64Array;
  readonly x1: Float64Array;
  readonly v1: Float64Array;
  /** Lowest node voltage at the end of the last step [V]; nodes of sleds that are not there do not count. */
  lowest_V = 0;
  private readonly demand: Demand;
  private readonly tick_s: number;
  private readonly slots = new Map<number, Slot>();
  /** The slot of the last step. */
  private last: Slot | null = null;
  private spare = 0;
  private epoch = 0;
  /** 1 for the nodes of sleds that are not there, as of that many changes. */
  private readonly aside: Uint8Array;
  private changes = 0;
  private pastTicks = 0;
  private ticks = 0;
  /** The last step was a damped one: it jumps, and its slope tells nothing of the next. */
  private isDamped = false;

  constructor(network: Network, demand: Demand, tick_s: number, kernel: KernelChoice = 'fast') {
    this.network = network;
    this.demand = demand;
    this.tick_s = tick_s;
    const step = new Step(network, demand);
    this.step = step;
    this.kernel =
      (kernel === 'plain' ? null : CompiledKernel.make(step, mostSlots, kernel === 'linked')) ?? plainKernel;
    this.kernel.hold('Step', step);
    const { x0, x1, v0, v1 } = step.ends;
    this.x0 = x0;
    this.x1 = x1;
    this.v0 = v0;
    this.v1 = v1;
    this.aside = new Uint8Array(network.nodeCount);
  }

  /** Largest distance of a node voltage from what was expected [V]: how smooth the last step was. */
  get surprise_V(): number {
    return this.step.figures[figure.surprise]!;
  }

  /** Highest node voltage at the end of the last step [V]. */
  get highest_V(): number {
    return this.step.figures[figure.highest]!;
  }

  /** The last step ended beyond what somebody waits for. */
  get isDue(): boolean {
    return this.step.figures[figure.due] === 1;
  }

  /** Solves so far. */
  get solves(): number {
    return this.step.figures[figure.solves]!;
  }

  get factorisations(): number {
    return this.step.figures[figure.factorisations]!;
  }

  /** Writes the demand at `tick` into `out`, one value per sled [W]. */
  demandAt(out: Float64Array, tick: number): void {
    const { demand } = this;
    const { profile_W } = this.step;
    demand.at(profile_W, tick);
    const { share_ratio } = this.network.sleds.columns;
    for (let k = 0; k < out.length; k++) out[k] = share_ratio[k]! * profile_W[demand.profileOf[k]!]!;
  }

  /** A conductance has changed for good (a bar opened): prepared rungs are stale. */
  restamp(): void {
    this.epoch++;
  }

  /** Forgets the slope of the past: the next step expects the present voltages. */
  forget(): void {
    this.pastTicks = 0;
  }

  /** What trapezoidal steps of `ticks` need, prepared. */
  rungOf(ticks: number): Rung {
    return this.slot(ticks).rung;
  }

  private slot(ticks: number): Slot {
    const { last } = this;
    if (last !== null && last.ticks === ticks && last.epoch === this.epoch) return last;
    const slot = this.slots.get(ticks) ?? this.free();
    this.slots.set(ticks, slot);
    if (slot.ticks !== ticks || slot.epoch !== this.epoch) this.prepare(slot, ticks);
    this.last = slot;
    return slot;
  }

  /** A slot for steps of `ticks`: a new one, or where there are enough one of another length, which is forgotten. */
  private free(): Slot {
    if (this.slots.size < mostSlots) return this.enrol();
    const keys = [...this.slots.keys()];
    const victim = keys[mostSlots / 2 + (this.spare++ % (mostSlots / 2))]!;
    const slot = this.slots.get(victim)!;
    this.slots.delete(victim);
    slot.ticks = 0;
    return slot;
  }

  private enrol(): Slot {
    const rung = new Rung(this.network);
    this.kernel.hold('Rung', rung);
    return { rung, ticks: 0, epoch: -1 };
  }

  private prepare(slot: Slot, ticks: number): void {
    slot.ticks = ticks;
    slot.epoch = this.epoch;
    this.kernel.prepare(this.step, slot.rung, (ticks * this.tick_s) / 2);
  }

  /**
   * Tries a step of `ticks` from `tick`, its end weighed as that of a trapezoidal step of `rungTicks`. The result stands
   * in x1, v1 until `accept`.
   */
  take(tick: number, ticks: number, rungTicks: number = ticks): StepOutcome {
    const { step, network, kernel, tick_s } = this;
    const { ripple } = network.intakes;
    this.ticks = ticks;
    this.isDamped = rungTicks !== ticks;
    if (ripple.isOn) ripple.span(tick, tick + ticks);
    this.demand.at(step.profile_W, tick + ticks);
    const along = this.pastTicks > 0 ? ticks / this.pastTicks : 0;
    const q_s = (rungTicks * tick_s) / 2;
    const p_s = (ticks - rungTicks / 2) * tick_s;
    const outcome = kernel.take(step, this.rungOf(rungTicks), p_s, q_s, along, ticks === 1);
    this.lowest_V = network.sleds.absent > 0 ? this.lowestPresent() : step.figures[figure.lowest]!;
    return outcomes[outcome]!;
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

  /** Makes the end of the step the present. */
  accept(): void {
    this.kernel.accept(this.step);
    this.pastTicks = this.isDamped ? 0 : this.ticks;
  }
}
