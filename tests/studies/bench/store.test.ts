/** The one store of all kinds of trial: what is kept comes back as the kind it was, to the last bit. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readOutcomes } from '../../../src/studies/bench/kept-lines.ts';
import { Store } from '../../../src/studies/bench/store.ts';
import { packed, unpacked } from '../../../src/studies/fit/packed.ts';
import { noOperatingPoint } from '../../../src/studies/trials/run-outcome.ts';

const identity = { tool_version: '0', study: 'a', inputs: [] };
const folder = (): string => mkdtempSync(join(tmpdir(), 'store-'));

describe('a store', () => {
  it('gives an outcome back to who asks for its kind, and to nobody else', () => {
    const dir = folder();
    const store = Store.open(dir, identity, 'new');
    store.add('k', { kind: 'run', outcome: noOperatingPoint('no load') });
    store.add('k', {
      kind: 'place',
      outcome: {
        at_s: 0.1,
        aligned: 'found',
        at_interval_s: null,
        clock_rate_ratio: null,
        clock_rate_error_ratio: null,
        warnings: [],
      },
    });
    const again = Store.open(dir, identity, 'resume');
    expect(again.size).toBe(2);
    expect(again.get('run', 'k')).toEqual(noOperatingPoint('no load'));
    expect(again.get('place', 'k')?.at_s).toBe(0.1);
    expect(again.get('cell', 'k')).toBeUndefined();
    expect([...readOutcomes(dir).allOf('run').keys()]).toEqual(['k']);
  });

  it('keeps every bit of a curve, what is no number too', () => {
    const time_s = Float64Array.from([0, 1e-5, 1 / 3, 0.5, 0.6]);
    const values = Float64Array.from([1 / 3, Number.NaN, -0, Number.NEGATIVE_INFINITY, 5e-324]);
    const channel = 'A.S1.voltage_V';
    const curves = {
      of: new Map([[channel, { channel, time_s, values }]]),
      window: { from_s: 0, to_s: 0.6 },
    };
    const dir = folder();
    Store.open(dir, identity, 'new').add('k', { kind: 'simulated', outcome: packed(curves) });
    const back = unpacked(Store.open(dir, identity, 'resume').get('simulated', 'k')!);
    expect(back.window).toEqual(curves.window);
    expect(new Uint8Array(back.of.get(channel)!.values.buffer)).toEqual(new Uint8Array(values.buffer));
    expect(new Uint8Array(back.of.get(channel)!.time_s.buffer)).toEqual(new Uint8Array(time_s.buffer));
  });

  it('of another layout is refused, and says so', () => {
    const dir = folder();
    const { path } = Store.open(dir, identity, 'new');
    writeFileSync(path, readFileSync(path, 'utf8').replace('"buswake_study":4', '"buswake_study":1'));
    expect(() => Store.open(dir, identity, 'resume')).toThrow(BadInput);
    expect(() => Store.open(dir, identity, 'resume')).toThrow(/trials in format 1/);
  });
});
