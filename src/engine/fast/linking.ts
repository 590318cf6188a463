/**
 * The functions of the kernel for one cabinet: those for every cabinet at first, and once it pays those that are linked to its
 * memory. Both give the same bits, so it does not show when they change places.
 */
import type { Int } from '../../base/int.ts';
import type { WasmApi } from '../../base/wasm.ts';
import type { Structures } from './kernel-form.ts';
import { isNothingLinked, linkable, linkedModule, templateOf } from './linked.ts';
import type { Numbers } from './template.ts';
import { Way, type Ways } from './way.ts';

type Structure = keyof Structures;

/**
 * Steps by the functions for every cabinet before those for this one are made: linking costs about as much as they then
 * lose. The first cabinet of a process is linked at once, for its other functions are cold too.
 */
const stepsBeforeLinking = 20_000;

/** The same where the modules are kept from a cabinet that was laid out alike: they have only to be put over this memory. */
const stepsBeforeTaking = 1000;

/** What there may be several of: a function that is handed one serves all that are laid out alike. */
const moving: Structure = 'Rung';

/** What a kernel's functions stand over. */
export interface Over {
  readonly api: WasmApi;
  readonly imports: object;
  /** The memory as whole numbers of four bytes. */
  readonly words: Int32Array;
  /** Addresses of two rungs that differ in nothing but where they begin. */
  patterns(): readonly [Int, Int];
}

export class Linking<Functions extends object> {
  readonly ways: Ways<Functions>;
  private readonly over: Over;
  /** Addresses of what has been handed over last, of what stands in one place. */
  private readonly held: Partial<Record<Structure, Int>> = {};
  private readonly rungs: Int[] = [];
  /** Functions that serve any rung: what they are linked to. */
  private readonly ofRungs = new Map<string, Numbers>();
  private steps = 0;
  private next: number;
  private readonly atOnce: boolean;

  /** `atOnce`: nothing is waited for. */
  constructor(every: Functions, over: Over, atOnce: boolean) {
    this.ways = Object.fromEntries(
      Object.entries(every).map(([name, one]) => [name, new Way(one)]),
    ) as Ways<Functions>;
    this.over = over;
    this.atOnce = atOnce || isNothingLinked();
    this.next = this.soon();
  }

  /** Something was handed over. */
  hold(structure: Structure, address: Int): void {
    if (structure === moving) {
      this.rungs.push(address);
      for (const [name, numbers] of this.ofRungs)
        if (!this.isLike(name, numbers, address)) this.unlink(name as keyof Functions & string);
      return;
    }
    this.held[structure] = address;
    this.next = this.soon();
  }

  /** Modules that are not kept are made: it pays by now. */
  private get mayMake(): boolean {
    return this.atOnce || this.steps >= stepsBeforeLinking;
  }

  /** The step before which it is looked whether what was handed over can be linked to. */
  private soon(): number {
    return this.steps + (this.atOnce ? 1 : stepsBeforeTaking);
  }

  /** A step is about to be taken. */
  step(): void {
    if (++this.steps === this.next) this.link();
  }

  private unlink(name: keyof Functions & string): void {
    this.ways[name].unlink();
    this.ofRungs.delete(name);
  }

  /** Addresses of what a function is handed, with that of a rung; null where something has not been handed over yet. */
  private addresses(handed: readonly (string | null)[], rung: Int): readonly Int[] | null {
    const all = handed.map((structure) =>
      structure === null ? 0 : structure === moving ? rung : this.held[structure as Structure],
    );
    return all.includes(undefined) ? null : (all as Int[]);
  }

  /** A rung is laid out like those that a function was linked to. */
  private isLike(name: string, numbers: Numbers, rung: Int): boolean {
    const { handed } = linkable.find((one) => one.name === name)!;
    return templateOf(name).holds(numbers, this.over.words, this.addresses(handed, rung)!, rung);
  }

  private link(): void {
    let isWhole = true;
    for (const { name, handed } of linkable) {
      const first = this.held[handed[0] as Structure];
      if (first === undefined || this.ways[name as keyof Functions].isLinkedTo(first)) continue;
      if (!this.linkOne(name as keyof Functions & string, handed, first)) isWhole = false;
    }
    // Where modules were not kept and may not be made yet, it pays later.
    if (!isWhole && !this.mayMake) this.next = stepsBeforeLinking;
  }

  /** Links one function to what has been handed over, `first` before all; false where it cannot be, or not yet. */
  private linkOne(name: keyof Functions & string, handed: readonly (string | null)[], first: Int): boolean {
    const { api, imports, words } = this.over;
    const [rung, again] = this.over.patterns();
    const [at, other] = [this.addresses(handed, rung), this.addresses(handed, again)];
    const numbers = at === null ? null : templateOf(name).numbers(words, at, other!);
    if (numbers === null) return false;
    const isOfRungs = handed.includes(moving);
    if (isOfRungs && !this.rungs.every((one) => this.isLike(name, numbers, one))) return false;
    const module = linkedModule(api, name, numbers, this.mayMake);
    if (module === null) return false;
    const own = new api.Instance(module, imports).exports as Functions;
    this.ways[name].link(own[name], first);
    if (isOfRungs) this.ofRungs.set(name, numbers);
    return true;
  }
}
