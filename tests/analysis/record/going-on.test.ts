import { describe, expect, it } from 'vitest';
import { readLine } from '../../../src/analysis/read/line.ts';
import { readShelfContinuous } from '../../../src/analysis/read/shelves.ts';
import { caseOf } from '../../../src/analysis/record/case.ts';
import { harderSquare, isGoingOnKnown } from '../../../src/analysis/record/going-on.ts';
import { demandOf, resultOf, row, scenarioOf, span } from '../fixture.ts';

const limit = {
  ...row('line', 'line-current', 'upper', 0.8),
  column: 'normal',
  value: 0.8,
  reportOnly: false,
  removed: null,
} as const;

const rounds = [4.8, 9.6, 14.4, 19.2, 24].map((from_s) => {
  const rms = from_s < 12 ? 700 : 800;
  return { from_s: 1.2 + from_s, squares: [{ channel: 'S1.current_A', mean: rms, rms }] };
});

/** Shelf S1 and both feeders carry more from 12 s on, when S2 is lost. */
function lostShelf(kept = rounds, spans = [span('out', 'S2', 12, null, 'latched')]) {
  const base = resultOf({ spans });
  const { from_s, width_s } = base.means;
  const column = (before: number, after: number): Float64Array =>
    Float64Array.from({ length: 2880 }, (_, j) => (from_s + (j + 0.5) * width_s < 12 ? before : after));
  const columns = new Map([
    ...base.means.columns,
    ['FA.ac_power_W', column(10_000, 30_000)],
    ['total.ac_power_W', column(20_000, 60_000)],
  ] as const);
  return { ...base, rounds: kept, means: { ...base.means, columns } };
}

describe('the RMS of what goes on', () => {
  it('is that of the rounds that begin clear of the last disturbance', () => {
    const c = caseOf(scenarioOf(), demandOf(), lostShelf());
    expect(harderSquare(c, 'S1.current_A')?.rms).toBe(800);
    expect(isGoingOnKnown(c)).toBe(true);
  });

  it('is that of the window where the load does not repeat, or where the window was harder', () => {
    const once = demandOf({ period_ticks: null });
    const whole = caseOf(scenarioOf(), once, lostShelf());
    const window = harderSquare(whole, 'S1.current_A')!.rms;
    expect(window).toBeLessThan(800);
    const easier = rounds.map(({ from_s }) => ({
      from_s,
      squares: [{ channel: 'S1.current_A', mean: 1, rms: 1 }],
    }));
    expect(harderSquare(caseOf(scenarioOf(), demandOf(), lostShelf(easier)), 'S1.current_A')?.rms).toBe(
      window,
    );
  });

  it('is not known where no round begins clear of the disturbance', () => {
    expect(isGoingOnKnown(caseOf(scenarioOf(), demandOf(), lostShelf(rounds.slice(0, 2))))).toBe(false);
  });

  it('is what shelves and feeders are judged by where it is more than that of the window', () => {
    const c = caseOf(scenarioOf(), demandOf(), lostShelf());
    expect(readShelfContinuous(c)).toMatchObject({ node: 'S1' });
    expect(readShelfContinuous(c).value).toBeCloseTo(800 / 720, 9);
    expect(readLine(c, limit).value).toBeCloseTo(30_000 / (Math.sqrt(3) * 400 * 50), 9);
  });
});
