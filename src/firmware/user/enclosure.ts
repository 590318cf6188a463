/**
 * Where a user's module runs: a language context of its own with nothing of this process in it, called with a
 * time limit. The limit is of wall time and touches nothing but a failure: a call that returns does so with the
 * same numbers on any machine.
 *
 * It keeps honest mistakes apart; it is no wall against malice, as node:vm is none.
 */
import { SourceMap } from 'node:module';
import { createContext, Script } from 'node:vm';
import type { ControllerSpec } from '../../scenario/scenario.ts';
import { ControllerFault, type FaultPlace } from './fault.ts';

/** Longest computing of one call [ms]. */
const longest_ms = 5000;

/** Longest search for the settled start, which asks `rest` thousands of times; it takes a second or so [ms]. */
const longestSearch_ms = 60_000;

/** The context: no clock, no random numbers, no imports; `$` holds what passes between the two sides. */
const prelude = `
delete globalThis.Date;
delete globalThis.WeakRef;
delete globalThis.FinalizationRegistry;
Math.random = () => { throw new Error('random numbers would make two runs differ: keep a generator in memory'); };
globalThis.$ = {
  module: { exports: {} },
  require(name) { throw new Error('it imports ' + name + ': a controller stands alone, only types may be imported'); },
  load() {
    const { controller } = $.module.exports;
    if (controller === null || typeof controller !== 'object') return 'no export named controller';
    if (typeof controller.run !== 'function') return 'a controller without the function run';
    $.controller = controller;
    const names = controller.memory === undefined ? [] : [...controller.memory($.setup)];
    if (!names.every((name) => typeof name === 'string') || new Set(names).size < names.length)
      return 'memory() that does not give names, each once';
    $.names = names;
    $.memory = new Float64Array(names.length);
    return '';
  },
  word(x) {
    if (typeof x === 'string') return JSON.stringify(x.slice(0, 40));
    if (typeof x === 'object' && x !== null) {
      if (typeof x.then === 'function') return 'a promise';
      return Array.isArray(x) || ArrayBuffer.isView(x) ? 'a list of ' + x.length : 'an object';
    }
    return typeof x === 'function' ? 'a function' : String(x);
  },
  list(given, out, units, what) {
    if (given === null || typeof given !== 'object' || typeof given.length !== 'number')
      return what + ' returned ' + $.word(given) + ' in place of ' + out.length + ' numbers';
    if (given.length !== out.length)
      return what + ' returned ' + given.length + ' numbers in place of ' + out.length;
    for (let k = 0; k < out.length; k++) {
      const x = given[k];
      if (typeof x !== 'number' || !Number.isFinite(x)) return what + ' returned ' + $.word(x) + ' for ' + units[k];
      out[k] = x;
    }
    return '';
  },
  remembered() {
    for (let k = 0; k < $.memory.length; k++)
      if (!Number.isFinite($.memory[k])) return 'run() left ' + $.memory[k] + ' in memory as ' + $.names[k];
    return '';
  },
  run() {
    return $.list($.controller.run($.input, $.memory, $.setup), $.out, $.units, 'run()') || $.remembered();
  },
  restingMemory() {
    if ($.controller.restingMemory === undefined) $.memory.fill(0);
    else return $.list($.controller.restingMemory($.rest, $.setup), $.memory, $.names, 'restingMemory()');
    return '';
  },
  restingTrim() {
    const u = $.controller.rest($.at[0], $.at[1], $.at[2], $.setup);
    if (typeof u !== 'number' || !Number.isFinite(u)) return 'rest() returned ' + $.word(u) + ' for ' + $.units[$.at[0]];
    $.at[3] = u;
    return '';
  },
};
`;

export class Enclosure {
  /** Numbers that pass both ways; they belong to the context. */
  readonly memory: Float64Array;
  readonly memoryNames: readonly string[];
  readonly out: Float64Array;
  /** The input as the module sees it; `fill` writes it. */
  readonly input: { [name: string]: number | boolean | Float64Array | boolean[] };
  /** Shelf, current, mean, and the trim that comes back. */
  readonly at: Float64Array;
  readonly hasRest: boolean;
  private readonly spec: ControllerSpec;
  private readonly context: ReturnType<typeof createContext>;
  private readonly scripts = new Map<string, Script>();
  /** A search with a limit of its own goes on: its calls need none. */
  private isSearching = false;

  /** `input`: each field as JavaScript text, made in the context. Throws ControllerFault. */
  constructor(spec: ControllerSpec, setup: object, units: readonly string[], input: string) {
    this.spec = spec;
    this.context = createContext(Object.create(null) as object, { microtaskMode: 'afterEvaluate' });
    const own = (text: string): unknown => new Script(text).runInContext(this.context);
    own(prelude);
    own(`
      const freeze = (x) => { if (typeof x === 'object' && x !== null) { Object.values(x).forEach(freeze); Object.freeze(x); } return x; };
      $.setup = freeze(JSON.parse(${JSON.stringify(JSON.stringify(setup))}));
      $.units = JSON.parse(${JSON.stringify(JSON.stringify(units))});
      $.out = new Float64Array(${units.length});
      $.at = new Float64Array(4);
      $.input = Object.seal(${input});
    `);
    const head = '(function (module, exports, require) {';
    const module = this.guard(
      null,
      () =>
        new Script(`${head}${spec.code}\n})($.module, $.module.exports, $.require)`, {
          filename: spec.file,
          columnOffset: -head.length,
        }),
    );
    this.guard(null, () => module.runInContext(this.context, { timeout: longest_ms }));
    this.call('load', null);
    this.out = own('$.out') as Float64Array;
    this.at = own('$.at') as Float64Array;
    this.memory = own('$.memory') as Float64Array;
    this.memoryNames = [...(own('$.names') as string[])];
    this.input = own('$.input') as Enclosure['input'];
    this.hasRest = own("typeof $.controller.rest === 'function'") as boolean;
  }

  /** Calls a function of `$`; what it says in words is a fault. */
  call(name: 'load' | 'run' | 'restingMemory' | 'restingTrim', time_s: number | null): void {
    let script = this.scripts.get(name);
    if (script === undefined) {
      script = new Script(`$.${name}()`);
      this.scripts.set(name, script);
    }
    const limit = this.isSearching ? {} : { timeout: longest_ms };
    const word = this.guard(time_s, () => script.runInContext(this.context, limit));
    if (word !== '') throw this.fault(String(word), time_s);
  }

  /** Work of ours that calls the module many times, under one limit: a limit costs a tenth of a millisecond. */
  search(work: () => void): void {
    const between = this.context as { $work?: () => void };
    between.$work = work;
    this.isSearching = true;
    try {
      new Script('$work()').runInContext(this.context, { timeout: longestSearch_ms });
    } catch (error) {
      const { code } = error as { code?: unknown };
      if (code !== 'ERR_SCRIPT_EXECUTION_TIMEOUT') throw error;
      throw this.fault(
        `a search for its rest that had not ended after ${longestSearch_ms / 1000} s: rest() does not return`,
        null,
        'a call that returns',
      );
    } finally {
      this.isSearching = false;
      delete between.$work;
    }
  }

  /** What the settled cabinet gives `restingMemory`. */
  putRest(rest: object): void {
    new Script(`$.rest = JSON.parse(${JSON.stringify(JSON.stringify(rest))})`).runInContext(this.context);
  }

  fault(found: string, time_s: number | null, expected?: string, place: FaultPlace = {}): ControllerFault {
    return new ControllerFault(this.spec.file, this.spec.replaces, place, found, time_s, expected);
  }

  private guard<T>(time_s: number | null, work: () => T): T {
    try {
      return work();
    } catch (error) {
      // Inside a search its limit is not ours to name.
      if (this.isSearching && (error as { code?: unknown })?.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT')
        throw error;
      throw this.translated(error, time_s);
    }
  }

  private translated(error: unknown, time_s: number | null): ControllerFault {
    const { code, name, message, stack } = (
      typeof error === 'object' && error !== null ? error : { message: String(error) }
    ) as Partial<Error> & { code?: unknown };
    if (code === 'ERR_SCRIPT_EXECUTION_TIMEOUT') {
      return this.fault(
        `a call that had not returned after ${longest_ms / 1000} s of computing`,
        time_s,
        'a call that returns',
      );
    }
    const words = [name, message].filter((word) => typeof word === 'string' && word !== '').join(': ');
    return this.fault(`it threw ${words}`, time_s, undefined, this.placeOf(String(stack ?? '')));
  }

  /** The first line of the user's file in a stack, as the user wrote it. */
  private placeOf(stack: string): FaultPlace {
    const at = stack.split(`${this.spec.file}:`)[1];
    const [, line, column] = /^(\d+)(?::(\d+))?/.exec(at ?? '') ?? [];
    if (line === undefined) return {};
    const map = new SourceMap(JSON.parse(this.spec.map));
    const entry = map.findEntry(Number(line) - 1, Number(column ?? 1) - 1);
    return 'originalLine' in entry ? { line: entry.originalLine + 1, column: entry.originalColumn + 1 } : {};
  }
}
