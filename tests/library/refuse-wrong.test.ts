/** What programs hand over to the library wrongly is refused as on the command line: nothing is judged by it. */
import { describe, expect, it } from 'vitest';
import { BadInput, check, matrix, rating, readBundle, run, size, traceOf } from '../../src/library/node.ts';

/** What callers without types may hand over. */
type Loose = (...given: readonly unknown[]) => unknown;

async function problemsOf(work: () => unknown): Promise<readonly string[]> {
  try {
    await work();
  } catch (error) {
    if (error instanceof BadInput) return error.problems.map(({ path, found }) => `${path}: ${found}`);
    throw error;
  }
  throw new Error('nothing was refused');
}

const loose = { check, run, size, rating, matrix, readBundle, traceOf } as unknown as Readonly<
  Record<string, Loose>
>;

describe('the library refuses', () => {
  it.each([
    ['run', [], ['first argument: nothing']],
    ['run', [null], ['first argument: null']],
    ['run', ['single-step', null], ['second argument: null']],
    ['run', ['single-step', 5], ['second argument: 5']],
    ['run', ['single-step', []], ['second argument: a list']],
    ['run', ['single-step', { on: 'x' }], ['on: "x"']],
    ['run', ['single-step', { on: '2030-02-30' }], ['on: "2030-02-30"']],
    ['run', ['single-step', { on: new Date(Number.NaN) }], ['on: a Date']],
    ['run', ['single-step', { waive: { trim: ' ' } }], ['waive: trim: " "']],
    ['run', ['single-step', { set: { duration: 1 } }], ['set: duration: 1']],
    ['run', ['single-step', { set: null }], ['set: null']],
    ['run', ['single-step', { set: 'duration=1 s' }], ['set: "duration=1 s"']],
    ['run', ['single-step', { doubt: 'yes', foo: 1 }], ['doubt: "yes"', 'foo: no such option']],
    ['run', ['single-step', { load: { file: 'mine.csv' } }], ['load: no such option']],
    ['run', ['single-step', { out: '' }], ['out: an empty text']],
    ['run', ['single-step', { out: 'a\0b' }], ['out: "a\\u0000b"']],
    ['run', ['single-step', { set: new Map([['trays.capacitance', '1 F']]) }], ['set: a Map']],
    ['run', ['single-step', { waive: new Set(['x']) }], ['waive: a Set']],
    ['check', ['single-step', new Map([['set', 1]])], ['second argument: a Map']],
    [
      'check',
      ['single-step', { toString: 'x', constructor: 1 }],
      ['toString: no such option', 'constructor: no such option'],
    ],
    ['check', [{}], ['first argument: an object']],
    ['check', ['single-step', { on: '2030-06-30' }], ['on: no such option']],
    ['rating', ['single-step', { workers: -1 }], ['workers: -1']],
    ['matrix', ['single-step', { part: '9/2' }], ['part: no such option']],
    ['size', ['single-step', { vary: { 'trays.count': 6 } }], ['vary: trays.count: 6']],
    ['readBundle', [], ['first argument: nothing']],
    ['traceOf', [], ['first argument: no result of a run']],
    ['traceOf', [{ recording: null }, 'x'], ['first argument: no result of a run']],
    ['traceOf', [{ recording: { edges_s: [0, 1] } }, 'x'], ['first argument: no result of a run']],
    ['traceOf', [{ recording: { edges_s: new Float64Array(1) } }, Symbol('x')], ['channel: a symbol']],
  ])('%s(%j)', async (name, given, told) => {
    expect(await problemsOf(() => loose[name]!(...given))).toEqual(told);
  });

  it('and takes what is left out', () => {
    expect(check('single-step', { set: {} }).scenario.title).toBe(check('single-step').scenario.title);
  });
});
