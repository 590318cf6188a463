/** What knowing a figure would buy, on samples whose yield depends on one of three figures by construction. */
import { describe, expect, it } from 'vitest';
import { askNext } from '../../../src/studies/spread/ask-next.ts';
import { planSpread } from '../../../src/studies/spread/plan.ts';
import { contextHere, studyOf } from '../here.ts';

const plan = planSpread(
  studyOf('spread', 'single-step', {
    tolerances: [
      ['firmware.smoothing.latency', 'uniform from 0.2 ms to 1 ms'],
      ['trays.esr', 'uniform by 10 %'],
      ['banks.capacitance', 'uniform by 10 %, common'],
    ],
    words: { samples: '200' },
  }),
  contextHere().read,
);
const latency = plan.variables.findIndex(({ path }) => path === 'firmware.smoothing.latency');
const figureOf = (path: string) => path.replace(/\.T\d+/, '');

function asked(passes: (latency: number) => boolean | null) {
  const passed = plan.rows.map((row) => passes(row[latency]!));
  return askNext(plan.variables, plan.rows, passed, figureOf, () => 'assumed: one period');
}

describe('what to ask for next', () => {
  it('is the figure that decides, in its better half, and the yield that this would buy', () => {
    // Fails in the last quarter of the range: 75 % of all pass, all of those in the lower half.
    const [first] = asked((p) => p < 0.75);
    expect(first).toMatchObject({
      path: 'firmware.smoothing.latency',
      demand: 'at most 600 µs',
      yield_ratio: 1,
      source: 'assumed: one period',
    });
    expect(first!.gain_ratio).toBeCloseTo(0.25, 2);
    expect(asked((p) => p > 0.25)[0]!.demand).toBe('at least 600 µs');
  });

  it('is nothing where all pass, none does, or chance alone decides', () => {
    expect(asked(() => true)).toEqual([]);
    expect(asked(() => false)).toEqual([]);
    expect(asked(() => null)).toEqual([]);
    let turn = 0;
    const named = asked(() => turn++ % 2 === 0).map(({ path }) => path);
    expect(named).not.toContain('firmware.smoothing.latency');
  });

  it('counts a figure that units draw for themselves once', () => {
    expect(asked((p) => p < 0.5).filter(({ path }) => path.startsWith('trays.')).length).toBeLessThan(2);
  });
});
