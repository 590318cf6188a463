/**
 * Where a user's module runs: an interpreter of its own with nothing of this process in it, called with a bound on its turns. The
 * bound touches nothing but a failure: a call that returns does so with the same numbers on any machine.
 */
import { oneLine } from '../../base/one-line.ts';
import type { ControllerSpec } from '../../scenario/scenario.ts';
import { ControllerFault, type FaultPlace } from './fault.ts';
import { placeIn } from './fault-place.ts';
import { inside } from './inside.ts';
import { Broken, Endless, type Handle, Interpreter, TooDeep } from './interpreter.ts';

/**
 * Most turns of the interpreter in one call, about two seconds of computing, and in a search for the settled start, which asks
 * `rest` thousands of times and takes a hundredth of them.
 */
const mostTurns = { call: 200e6, search: 1e9 };

/** What a module is given for each call, by name: one number or flag, or one for each unit. */
export type InputKinds = Readonly<Record<string, 'number' | 'numbers' | 'flag' | 'flags'>>;

type Call = 'load' | 'run' | 'restingMemory' | 'restingTrim';

export class Enclosure {
  /** Numbers that pass both ways; they lie in the interpreter. */
  readonly memory: Float64Array;
  readonly memoryNames: readonly string[];
  /** What the module wants to be seen. */
  readonly shown: Float64Array;
  readonly out: Float64Array;
  /** The next call's input: one number each, or one for each unit; a flag is 1 or 0. */
  readonly input: Readonly<Record<string, Float64Array>>;
  /** Shelf, current, mean, and the trim that comes back. */
  readonly at: Float64Array;
  readonly hasRest: boolean;
  private readonly spec: ControllerSpec;
  private readonly most: typeof mostTurns;
  private readonly interpreter = new Interpreter();
  private readonly sides: Handle;
  private readonly calls = new Map<Call, Handle>();
  /** Turns left to a search that goes on; null outside one. */
  private searchLeft: number | null = null;

  /** Throws ControllerFault. */
  constructor(
    spec: ControllerSpec,
    setup: object,
    units: readonly string[],
    kinds: InputKinds,
    most = mostTurns,
  ) {
    this.spec = spec;
    this.most = most;
    const { interpreter } = this;
    const texts = [setup, units, kinds].map((of) => JSON.stringify(JSON.stringify(of)));
    this.sides = interpreter.own(`${inside}(${texts.join(', ')})`);
    this.out = this.column('out', units.length);
    this.at = this.column('at', 4);
    this.input = Object.fromEntries(
      Object.entries(kinds).map(([name, kind]) => [
        name,
        this.column(name, kind === 'numbers' || kind === 'flags' ? units.length : 1),
      ]),
    );
    this.loadModule();
    this.call('load', null);
    const [count, ...names] = this.said(this.side('memoryNames'), null, [])!.split('\u0001');
    if (Number(count) !== names.length)
      throw this.fault('memory() that gives a name with a control character', null);
    this.memoryNames = names;
    this.memory = this.bounded(null, () => this.column('memory', this.memoryNames.length));
    this.shown = this.bounded(null, () => this.column('shown', spec.shows.length));
    this.hasRest = this.said(this.side('hasRest'), null, []) !== null;
  }

  /** Calls the module; what it says in words is a fault. */
  call(name: Call, time_s: number | null, ...args: readonly string[]): void {
    let of = this.calls.get(name);
    if (of === undefined) {
      of = this.side(name);
      this.calls.set(name, of);
    }
    const word = this.said(
      of,
      time_s,
      args.map((text) => this.interpreter.string(text)),
    );
    if (word !== null) throw this.fault(word, time_s);
    if (name === 'run') this.checkColumns(time_s);
  }

  /** Work of ours that calls the module many times, under one bound. */
  search(work: () => void): void {
    this.searchLeft = this.most.search;
    try {
      work();
    } finally {
      this.searchLeft = null;
    }
  }

  fault(found: string, time_s: number | null, expected?: string, place: FaultPlace = {}): ControllerFault {
    return new ControllerFault(this.spec.file, this.spec.replaces, place, found, time_s, expected);
  }

  /** Numbers under a name that both sides see. */
  private column(name: string, count: number): Float64Array {
    const { interpreter } = this;
    const { inside, values } = interpreter.column(count);
    interpreter.words(
      this.side('column'),
      this.most.call,
      interpreter.string(name),
      inside,
      interpreter.number(count),
    );
    return values;
  }

  private side(name: string): Handle {
    return this.interpreter.member(this.sides, name);
  }

  /** Runs the module's text, which fills its exports. */
  private loadModule(): void {
    const { spec, interpreter } = this;
    const head = '(function (module, exports, require) {';
    const body = this.bounded(null, (turns) =>
      interpreter.evaluate(`${head}${spec.code}\n})`, spec.file, turns),
    );
    const words =
      'value' in body
        ? this.said(this.side('exportsOf'), null, [body.value])
        : this.said(this.side('thrown'), null, [body.thrown]);
    if (words !== null) throw this.fault(words, null);
  }

  /** What a function answers, null where it says nothing; something thrown is a fault, with its place. */
  private said(of: Handle, time_s: number | null, args: readonly Handle[]): string | null {
    const words = this.bounded(time_s, (turns) => this.interpreter.words(of, turns, ...args));
    if (words === null || !words.startsWith('\u0001')) return words;
    const [, thrown, stack] = words.split('\u0001');
    // A line of its own would look like ours.
    const what = oneLine(thrown!);
    throw this.fault(`it threw ${what}${this.hintAt(what)}`, time_s, undefined, placeIn(this.spec, stack!));
  }

  /** What the interpreter's own words leave unsaid. */
  private hintAt(what: string): string {
    if (what === 'null') return ' (as where its 32 MiB of memory are full)';
    const isLater = /not a function|^SyntaxError/.test(what) && /\basync\b/.test(this.spec.code);
    return isLater ? ' (nothing here answers later: no async function)' : '';
  }

  private bounded<T>(time_s: number | null, work: (turns: number) => T): T {
    const turns = Math.min(this.most.call, this.searchLeft ?? this.most.call);
    try {
      const done = work(turns);
      if (this.searchLeft !== null) this.searchLeft -= this.interpreter.spent(turns);
      return done;
    } catch (error) {
      if (error instanceof Broken)
        throw this.fault(
          'a module that leaves its interpreter without room to answer: its 32 MiB of memory are full',
          time_s,
        );
      if (error instanceof TooDeep)
        throw this.fault('calls or brackets nested deeper than the interpreter has room for', time_s);
      if (!(error instanceof Endless)) throw error;
      const where = this.searchLeft === null ? 'a call' : 'a search for its rest';
      throw this.fault(
        `${where} that had not returned after ${turns / 1e6} million turns of the interpreter`,
        time_s,
        'a call that returns',
      );
    }
  }

  private checkColumns(time_s: number | null): void {
    const { memory, memoryNames, shown, spec } = this;
    const k = memory.findIndex((x) => !Number.isFinite(x));
    if (k >= 0) throw this.fault(`run() left ${memory[k]} in memory as ${memoryNames[k]}`, time_s);
    const j = shown.findIndex((x) => !Number.isFinite(x));
    if (j >= 0) throw this.fault(`run() left ${shown[j]} to be shown as ${spec.shows[j]!.name}`, time_s);
  }
}
