/** Controllers that try to reach out, not to return, or to answer otherwise than in numbers: each ends, or finds nothing there. */
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { Enclosure } from '../../../src/firmware/user/enclosure.ts';
import type { ControllerSpec } from '../../../src/scenario/scenario.ts';

const units = ['S1', 'S2', 'S3'];
const kinds = { time_s: 'number', current_ratio: 'numbers', online: 'flags' } as const;
const most = { call: 3e6, search: 6e6 };

function specOf(code: string): ControllerSpec {
  const map = JSON.stringify({ version: 3, sources: ['own.js'], names: [], mappings: 'AAAA' });
  return { file: 'own.js', replaces: 'share', sha256: '', shows: [], code, map };
}

/** The text as a module, in an enclosure whose calls may take few turns. */
function enclosed(code: string): Enclosure {
  return new Enclosure(specOf(code), { shelves: units, values: { gain: 1 } }, units, kinds, most);
}

/** A controller whose run is `body`, called once, and again. */
function ran(body: string, before = ''): readonly number[] {
  const own = enclosed(
    `${before}\nexports.controller = { memory: () => ['sum'], run(input, memory, setup) { ${body} } };`,
  );
  for (const time_s of [0.1, 0.2]) {
    own.input['time_s']![0] = time_s;
    own.call('run', time_s);
  }
  return [...own.out];
}

function told(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.problems[0]!.found;
    throw error;
  }
  return 'nothing';
}

const endless = /^a call that had not returned after 3 million turns of the interpreter/;
const list = 'return [1, 2, 3];';

describe('a controller that does not return is ended', () => {
  it.each([
    ['in a pattern that backtracks', `/(a+)+b/.test('a'.repeat(40)); ${list}`],
    ['in a search of an endless list', `Array.prototype.includes.call({ length: 2 ** 53 - 1 }, 1); ${list}`],
    ['in a search of a list of holes', `const a = []; a.length = 4294967295; a.indexOf(1); ${list}`],
    ['in numbers without end', `let n = 3n; for (let k = 0; k < 40; k++) n *= n; ${list}`],
    ['in filling memory', `const a = new Float64Array(2e6); for (;;) a.fill(1);`],
    ['in moving memory', `const a = new Uint8Array(8e6); for (;;) a.copyWithin(1, 0);`],
    [
      'in a generator',
      `const g = (function* () { for (;;) yield 1; })(); let s = 0; for (const x of g) s += x; ${list}`,
    ],
    ['in a comparison', `[3, 1, 2].sort(() => { for (;;); }); ${list}`],
    ['in a length', `return { get length() { for (;;); } };`],
    [
      'in an element',
      `return [1, 2, { get x() { return 1; } }, ].map((x, k) => k < 2 ? x : new Proxy([], { get() { for (;;); } }).y);`,
    ],
    ['in what it throws', `throw { get message() { for (;;); } };`],
    ['in words of what it throws', `throw { name: 'E', message: 'm', get stack() { for (;;); } };`],
    ['in words of what it returns', `return { get then() { for (;;); } };`],
    ['in calls of calls', `const f = (n) => { try { f(n + 1); } finally { f(n + 1); } }; f(0); ${list}`],
    [
      'in asking for memory again and again',
      `for (;;) { try { new Array(1e6).fill('x'.repeat(1e6)); } catch {} }`,
    ],
  ])('%s', (_, body) => {
    expect(told(() => ran(body))).toMatch(endless);
  });

  it('by more memory than it may name is refused', () => {
    const text =
      'exports.controller = { run() {}, memory: () => Array.from({ length: 20000 }, (_, k) => String(k)) };';
    expect(told(() => enclosed(text))).toContain('memory() that gives 20000 names');
  });

  it('while it is loaded, and while it says what it is', () => {
    expect(told(() => enclosed('for (;;);'))).toMatch(endless);
    expect(
      told(() => enclosed("Object.defineProperty(exports, 'controller', { get() { for (;;); } });")),
    ).toMatch(endless);
    expect(told(() => enclosed('exports.controller = { run() {}, memory() { for (;;); } };'))).toMatch(
      endless,
    );
  });

  it('in a search for its rest, by turns of all its calls together', () => {
    const own = enclosed(
      'exports.controller = { run() {}, rest() { for (let k = 0; k < 5e4; k++); return 0; } };',
    );
    const search = (calls: number) => (): void =>
      own.search(() => {
        for (let k = 0; k < calls; k++) own.call('restingTrim', null);
      });
    search(3)();
    expect(told(search(100))).toMatch(/^a search for its rest that had not returned after/);
  });

  it('after the same number of turns each time', () => {
    const text = `exports.controller = { memory: () => ['n'], run(i, m) { for (;;) m[0]++; } };`;
    const reached = [1, 2].map(() => {
      const own = enclosed(text);
      told(() => own.call('run', 0));
      return own.memory[0];
    });
    expect(reached[0]).toBeGreaterThan(1e4);
    expect(reached[1]).toBe(reached[0]);
  });
});

describe('a controller finds nothing of this process', () => {
  it.each([
    ['a clock', 'Date.now()', "'Date' is not defined"],
    ['a finer clock', 'performance.now()', "'performance' is not defined"],
    ['a locale', "new Intl.DateTimeFormat('en').format()", "'Intl' is not defined"],
    ['random numbers', 'Math.random()', 'random numbers would make two runs differ'],
    ['promises', 'Promise.resolve()', "'Promise' is not defined"],
    ['a timer', 'setTimeout(() => {}, 0)', "'setTimeout' is not defined"],
    ['a sleep', 'Atomics.wait(new Int32Array(4), 0, 0, 1e9)', "'Atomics' is not defined"],
    ['shared memory', 'new SharedArrayBuffer(8)', "'SharedArrayBuffer' is not defined"],
    ['the process', 'process.exit()', "'process' is not defined"],
    ['code made of text', "eval('1')", "'eval' is not defined"],
    ['code made by a constructor', "(() => {}).constructor('return this')()", 'not a function'],
    ['code made by a generator’s', "(function* () {}).constructor('return this')()", 'not a function'],
    ['what is collected', 'new WeakRef({})', "'WeakRef' is not defined"],
    ['a debugger', 'debugging()', "'debugging' is not defined"],
  ])('%s', (_, expression, words) => {
    const text = `exports.controller = { run() { ${expression}; ${list} } };`;
    expect(told(() => enclosed(text).call('run', 0))).toContain(words);
  });

  it('by an import, written or asked for', () => {
    expect(told(() => enclosed("require('fs');"))).toContain('it imports fs');
    expect(told(() => ran(`import('fs'); ${list}`))).toMatch(/^it threw /);
  });

  it('that answers later: an async function is told at once', () => {
    expect(told(() => ran(`this.later(); ${list}`))).toContain('it threw TypeError');
    const text =
      "exports.controller = { async later() { throw new Error('lost'); }, run() { this.later(); return [1, 2, 3]; } };";
    expect(told(() => enclosed(text).call('run', 0))).toContain('nothing here answers later');
  });
});

describe('a controller answers in numbers, whatever it does to the language', () => {
  it.each([
    [
      'finite numbers redefined',
      'return [NaN, 1, 2];',
      'Number.isFinite = () => true; globalThis.isFinite = () => true;',
      'run() returned NaN for S1',
    ],
    [
      'objects that give numbers',
      'return [{ valueOf: () => 1 }, 1, 2];',
      '',
      'run() returned an object for S1',
    ],
    [
      'a length that moves',
      'let n = 0; return { get length() { return n++ ? 2 : 3; }, 0: 1, 1: 1, 2: 1 };',
      '',
      'run() returned 2 numbers in place of 3',
    ],
    [
      'what throws when it is put in words',
      'throw { get message() { throw this; } };',
      '',
      'something that cannot be put in words',
    ],
    ['a symbol', 'return [Symbol.iterator, 1, 2];', '', 'for S1'],
    [
      'a setup that is written to',
      "'use strict'; setup.values.gain = 2; return [1, 2, 3];",
      '',
      'it threw TypeError',
    ],
    [
      'memory that is not finite',
      'memory[0] = Infinity; return [1, 2, 3];',
      '',
      'run() left Infinity in memory as sum',
    ],
    ['memory that moves away', 'memory.buffer.transfer(0); return [1, 2, 3];', '', 'it threw TypeError'],
    ['calls without end', 'const f = () => f() + 1; f(); return [1, 2, 3];', '', 'stack overflow'],
    [
      'words that look like ours',
      'throw new Error("boo\\u001b[31m\\nfound     nothing");',
      '',
      'it threw Error: boo [31m found     nothing',
    ],
    [
      'more memory than there is',
      'const a = []; for (;;) a.push(new Float64Array(1e5));',
      '',
      'out of memory',
    ],
  ])('%s', (_, body, before, words) => {
    expect(told(() => ran(body, before))).toContain(words);
  });

  it('its numbers come through when it overrides what lists do', () => {
    const before = `Array.prototype.map = () => [9, 9, 9]; Object.prototype.then = 1; Float64Array.prototype.fill = () => {};
      Array.isArray = () => { throw 1; }; Object.prototype.toJSON = () => 7; JSON.parse = () => 3;`;
    expect(ran('return [input.time_s, 2, input.online.length];', before)).toEqual([0.2, 2, 3]);
  });

  it('its input is filled anew whatever it wrote there', () => {
    expect(
      ran('const t = input.time_s; input.time_s = 5; input.online[0] = true; return [t, 2, 3];'),
    ).toEqual([0.2, 2, 3]);
  });
});

describe('a controller that fills the memory of its interpreter', () => {
  /** From large pieces down to the smallest, so that nothing is left. */
  const hog = `const hog = []; for (let n = 2 ** 20; n >= 1; n /= 2) { try { for (;;) hog.push(new Uint8Array(n)); } catch {} }
    const chain = []; try { for (;;) chain.push({}); } catch {}`;

  it.each([
    ['while it is loaded', `${hog}\nexports.controller = { run() { return [1, 2, 3]; } };`],
    [
      'while it names its memory',
      `exports.controller = { memory() { ${hog} return ['a', 'b']; }, run() { return [1, 2, 3]; } };`,
    ],
    ['and answers what is no number', `exports.controller = { run() { ${hog} return [NaN, 2, 3]; } };`],
    ['and throws', `exports.controller = { run() { ${hog} throw new Error('full'); } };`],
  ])('%s is told so', (_, code) => {
    const found = told(() => {
      const own = new Enclosure(specOf(code), { shelves: units }, units, kinds);
      own.call('run', 0);
    });
    expect(found).toContain('32 MiB of memory are full');
  });
});

it.each(['--liftoff-only', '--no-liftoff'])(
  'calls go as deep where V8 compiles the interpreter by %s',
  (how) => {
    const count = `
    const { Interpreter } = await import('./src/firmware/user/interpreter.ts');
    const text = "(() => { let d = 0; const f = () => { d++; return 1 + f(); }; try { f(); } catch { return String(d); } })";
    const one = new Interpreter();
    console.log(one.words(one.own(text), 1e8));`;
    const { stdout, stderr } = spawnSync(
      process.execPath,
      [how, '--import', 'tsx', '--input-type=module', '-e', count],
      { encoding: 'utf8' },
    );
    expect([stdout.trim(), stderr]).toEqual(['231', '']);
  },
);
