/**
 * The functions of the kernel for one cabinet: those for every cabinet at first, and once it pays those that are linked to its
 * memory. Both give the same bits, so it does not show when they change places.
 */
import type { Int } from '../../base/int.ts';
import type { WasmApi } from '../../base/wasm.ts';
import type { Structures } from './kernel-form.ts';
import { isNothingLinked, linkedModule, templateOf } from './linked.ts';
import type { Numbers } from './template.ts';

/** The functions as WebAssembly has them: objects by address, flags as 0 and 1. */
export interface Functions {
  take(step: Int, rung: Int, h: number, along: number, shortest: Int): Int;
  factor(step: Int, rung: Int): void;
  accept(step: Int): void;
  look(look: Int, tick0: number, tick1: number, judged: Int, smoothed_W: number): Int;
  close(closing: Int, judged: Int): void;
}

/**
 * Steps by the functions for every cabinet before those for this one are made: linking costs about as much as they then
 * lose. The first cabinet of a process is linked at once, for its other functions are cold too.
 */
const stepsBeforeLinking = 20_000;

/** What a kernel's functions stand over. */
export interface Over {
  readonly api: WasmApi;
  readonly imports: object;
  /** The memory as whole numbers of four bytes. */
  readonly words: Int32Array;
  /** Addresses of two rungs that differ in nothing but where they begin. */
  patterns(): readonly [Int, Int];
}

export class Linking {
  /** What is called. */
  readonly call: Functions;
  private readonly every: Functions;
  private readonly over: Over;
  /** Addresses of what has been handed over and stands in one place. */
  private held: Partial<Record<keyof Structures, Int>> = {};
  private readonly rungs: Int[] = [];
  /** What `take` is linked to. */
  private taken: Numbers | null = null;
  private steps = 0;
  private next: number;
  private mayMake: boolean;

  /** `atOnce`: nothing is waited for. */
  constructor(every: Functions, over: Over, atOnce: boolean) {
    this.every = every;
    this.call = { ...every };
    this.over = over;
    this.mayMake = atOnce || isNothingLinked();
    this.next = 1;
  }

  /** Steps are taken by functions for this cabinet. */
  get isLinked(): boolean {
    return this.taken !== null;
  }

  /** Something was handed over: what was linked to another is not for this one. */
  hold(structure: keyof Structures, address: Int): void {
    if (structure === 'Rung') {
      this.rungs.push(address);
      if (this.taken !== null && !this.isLike(this.taken, address)) this.unlink();
      return;
    }
    this.held = { ...this.held, [structure]: address };
    this.unlink();
    this.next = this.steps + 1;
  }

  /** A step is about to be taken. */
  step(): void {
    if (++this.steps === this.next) this.link();
  }

  private unlink(): void {
    Object.assign(this.call, this.every);
    this.taken = null;
  }

  /** A rung is laid out like those that `take` was linked to. */
  private isLike(numbers: Numbers, rung: Int): boolean {
    return templateOf('take')!.holds(numbers, this.over.words, [this.held.Step!, rung], rung);
  }

  private link(): void {
    const { Step, Look, Closing } = this.held;
    if (Step === undefined) return;
    const [rung, again] = this.over.patterns();
    this.taken = this.linked('take', [Step, rung], [Step, again]);
    const all = [
      this.taken,
      this.linked('accept', [Step]),
      Look === undefined || this.linked('look', [Look]),
      Closing === undefined || this.linked('close', [Closing]),
    ];
    if (this.taken !== null && !this.rungs.every((one) => this.isLike(this.taken!, one))) this.unlink();
    // Where the modules were not kept and may not be made yet, it pays later.
    if (all.includes(null) && !this.mayMake) this.next = this.steps + stepsBeforeLinking;
    this.mayMake = true;
  }

  /** Puts one function linked to `handed` in its place; null where it cannot be, or not yet. */
  private linked(
    name: keyof Functions,
    handed: readonly Int[],
    again: readonly Int[] = handed,
  ): Numbers | null {
    const { api, imports, words } = this.over;
    const numbers = templateOf(name)?.numbers(words, handed, again) ?? null;
    const module = numbers === null ? null : linkedModule(api, name, numbers, this.mayMake);
    if (module === null) return null;
    Object.assign(this.call, new api.Instance(module, imports).exports);
    return numbers;
  }
}
