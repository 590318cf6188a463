import { expect, test } from 'vitest';
import { constantDemand } from '../../src/loads/constant.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { plainReading, readRecorded } from '../../src/loads/recorded/read-recorded.ts';
import { stepDemand } from '../../src/loads/step.ts';
import type { LoadSpec, Scenario } from '../../src/scenario/scenario.ts';
import { contextOf } from './context.ts';

test('a constant load has no kink, and its mean, peak, low and energy are its power', () => {
  const d = constantDemand({ kind: 'constant', power_W: 220e3 }, contextOf({ duration_s: 5 }));
  const out = new Float64Array(1);
  d.at(out, 12345);
  expect(out[0]).toBe(220e3);
  expect(d.nextKink(0)).toBe(Number.POSITIVE_INFINITY);
  expect(d.kinkAt(0)).toBe(0);
  expect(d.period_ticks).toBeNull();
  expect([d.mean_W, d.peak_W, d.low_W]).toEqual([220e3, 220e3, 220e3]);
  expect(d.energy_J).toBeCloseTo(1.1e6, 6);
});

test('a step rises from its instant over its edge and has the closed-form energy', () => {
  const load = { kind: 'step', before_W: 100e3, after_W: 240e3, at_s: 0.1, edge_s: 1e-3 } as const;
  const d = stepDemand(load, contextOf({ duration_s: 2 }));
  const out = new Float64Array(1);
  const at = (t: number) => {
    d.at(out, t);
    return out[0];
  };
  expect([at(400_000), at(402_000), at(404_000)]).toEqual([100e3, 170e3, 240e3]);
  expect([d.nextKink(0), d.nextKink(400_000), d.nextKink(404_000)]).toEqual([400_000, 404_000, Infinity]);
  expect(d.kinkAt(400_000)).toBeCloseTo(140e3 / 1e-3, 3);
  expect(d.energy_J).toBeCloseTo(100e3 * 2 + 140e3 * (1.9 - 0.5e-3), 4);
  expect([d.peak_W, d.low_W, d.period_ticks]).toEqual([240e3, 100e3, null]);
});

test('makeDemand() dispatches on the kind of load and wants a recorded one to have been read', () => {
  const scenario = (load: LoadSpec) => ({ ...contextOf({ duration_s: 1 }), load }) as unknown as Scenario;
  expect(makeDemand(scenario({ kind: 'constant', power_W: 7 })).mean_W).toBe(7);
  const recorded: LoadSpec = {
    kind: 'recorded',
    file: 'a.csv',
    from_s: 0,
    to_s: 2,
    peak_W: null,
    scale_ratio: 3,
    edges: 'smooth',
    edge_s: 0.005,
    loop: false,
    reading: plainReading,
  };
  expect(() => makeDemand(scenario(recorded))).toThrow(new RangeError('the recording a.csv was not read'));
  const load = readRecorded('t_s,power_W\n0,1\n1,1\n2,1\n', { file: 'a.csv', sha256: 'x' });
  expect(makeDemand(scenario(recorded), load).mean_W).toBe(3);
});

test('a step between two ticks is refused with the nearest time that would do', () => {
  const load = { kind: 'step', before_W: 1, after_W: 2, at_s: 0.1000001, edge_s: 0 } as const;
  expect(() => stepDemand(load, contextOf())).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.at
      found     0.1000001 s
      expected  a whole number of ticks of 2.5e-7 s, at least 0
      mend      write 0.1 s, the nearest that is
    load.edge
      found     0 s
      expected  a whole number of ticks of 2.5e-7 s, at least 1
      mend      write 2.5e-7 s, the nearest that is
    2 problems. Nothing was run.]
  `);
});
