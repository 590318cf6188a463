import { describe, expect, it } from 'vitest';
import { caseOf } from '../../src/analysis/case.ts';
import { cycleRms } from '../../src/analysis/cycle-rms.ts';
import { readLine } from '../../src/analysis/line.ts';
import { readShelfContinuous } from '../../src/analysis/shelves.ts';
import { demandOf, resultOf, row, scenarioOf, span } from './fixture.ts';

const limit = {
  ...row('line', 'line-current', 'upper', 0.8),
  column: 'normal',
  value: 0.8,
  reportOnly: false,
  removed: null,
} as const;

/** Shelf S1 and both feeders carry more from 12 s on, when S2 is lost. */
function lostShelf(spans = [span('out', 'S2', 12, null, 'latched')]) {
  const base = resultOf({ spans });
  const { from_s, width_s } = base.means;
  const column = (before: number, after: number): Float64Array =>
    Float64Array.from({ length: 2880 }, (_, j) => (from_s + (j + 0.5) * width_s < 12 ? before : after));
  const columns = new Map([
    ...base.means.columns,
    ['S1.current_A', column(400, 800)],
    ['FA.ac_power_W', column(10_000, 30_000)],
    ['total.ac_power_W', column(20_000, 60_000)],
  ] as const);
  return { ...base, means: { ...base.means, columns } };
}

describe('the RMS of what goes on', () => {
  it('is that of the cycle after the last disturbance', () => {
    expect(cycleRms(caseOf(scenarioOf(), demandOf(), lostShelf()), 'S1.current_A')).toBeCloseTo(800, 9);
  });

  it('is none where the load does not repeat', () => {
    const once = demandOf({ period_ticks: null });
    expect(cycleRms(caseOf(scenarioOf(), once, lostShelf()), 'S1.current_A')).toBeNull();
  });

  it('is what shelves and feeders are judged by where it is more than that of the window', () => {
    const c = caseOf(scenarioOf(), demandOf(), lostShelf());
    expect(readShelfContinuous(c)).toMatchObject({ node: 'S1' });
    expect(readShelfContinuous(c).value).toBeCloseTo(800 / 720, 9);
    expect(readLine(c, limit).value).toBeCloseTo(30_000 / (Math.sqrt(3) * 400 * 50), 9);
  });
});
