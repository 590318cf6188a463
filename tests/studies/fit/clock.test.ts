/** What a clock does to a fit, on residuals in closed form: hidden behind a time constant, or shown by a wave. */
import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { identificationBenches } from '../../../scripts/identification/benches.ts';
import { fitted } from '../../../scripts/identification/fitted.ts';
import { measuredOn } from '../../../scripts/identification/measured.ts';
import { holds } from '../../../scripts/identification/right-model.ts';
import { stepsWith } from '../../../scripts/identification/simulated.ts';
import { truthsOf } from '../../../scripts/identification/truths.ts';
import { Random } from '../../../src/loads/random.ts';
import { usualClock } from '../../../src/measured/precision.ts';
import { clockShare, clockStep } from '../../../src/studies/fit/clock.ts';
import { clockSentences } from '../../../src/studies/fit/clock-words.ts';
import { misfitSentences } from '../../../src/studies/fit/misfit-words.ts';
import { fitOnStep } from './bench.ts';

const count = 400;
const times_s = Float64Array.from({ length: count }, (_, k) => k * 1e-3);
const noise = 0.004;

/** Residuals over the noise by what was measured and what is shown at a clock that is so much faster. */
function shares(measured: (t: number) => number, shown: (t: number) => number, by: (t: number) => number) {
  const random = new Random(7);
  const values = times_s.map((t) => measured(t) + noise * random.gaussian());
  const leftAt = (fast: number): Float64Array =>
    values.map((v, i) => (v - shown(times_s[i]! / (1 + fast))) / noise);
  return clockShare({
    left: leftAt(0),
    faster: leftAt(clockStep),
    slower: leftAt(-clockStep),
    sensitivities: Matrix.columnVector([...times_s].map((t) => -by(t) / noise)),
    variance: 1,
    known_ratio: 3e-4,
    taken_ratio: 0,
  });
}

const [tau_s, level] = [0.1, 20];
const decay = (t: number): number => level * Math.exp(-t / tau_s);
/** By a unit of τ over its own value. */
const byTau = (t: number): number => (decay(t) * t) / tau_s;

describe('clockShare()', () => {
  test('moves a time constant by as much as the clock, which no residual shows', () => {
    const { moves, spread_ratio, clock } = shares(decay, decay, byTau);
    // Stamps that run 1 % fast make τ look 1 % long.
    expect(moves[0]).toBeCloseTo(-1, 3);
    expect(spread_ratio).toBeCloseTo(3e-4, 6);
    expect(clock).toMatchObject({ is_off: false, seen_ratio: null, hidden_ratio: 0.01 });
  });

  test('finds a clock that is off by what a wave shows beside what is fitted', () => {
    const wave = (t: number): number => Math.sin(2 * Math.PI * 20 * t);
    const { clock } = shares((t) => wave(t / 1.003), wave, wave);
    expect(clock.is_off).toBe(true);
    expect(Math.abs(clock.seen_ratio! - 0.003)).toBeLessThan(3 * clock.seen_error_ratio!);
  });

  test('takes a clock within what is assumed for right, and its share from what data show', () => {
    const wave = (t: number): number => Math.sin(2 * Math.PI * 20 * t);
    const { clock, spread_ratio } = shares(wave, wave, wave);
    expect(clock.is_off).toBe(false);
    expect(spread_ratio).toBeLessThan(2e-4);
  });
});

describe('a fit on stamps that run fast', () => {
  const at = (fast: number, placeGiven: boolean) =>
    fitOnStep({
      placeGiven,
      truth: [
        { path: 'shelves.droop', value: '0.712 mΩ' },
        { path: 'banks.capacitance', value: '75 mF' },
      ],
      adjust: ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'banks.capacitance = 40 mF to 160 mF'],
      seed: 41,
      altered: (column) => ({ ...column, time_s: column.time_s.map((t) => t * (1 + fast)) }),
    });

  test('says how far the clock moves each value, and that is how far it moves', async () => {
    const [right, fast] = [await at(0, false), await at(0.004, false)];
    const { clock, result } = fast;
    expect(clock.is_off).toBe(false);
    expect(Object.keys(clock.moves)).toContain('banks.capacitance');
    const said = (clock.moves['banks.capacitance']! * 0.004) / clock.hidden_ratio;
    const moved = right.result['banks.capacitance']!.value - result['banks.capacitance']!.value;
    expect(moved / said).toBeGreaterThan(0.7);
    expect(moved / said).toBeLessThan(1.4);
    expect(clockSentences(fast)).toEqual([
      expect.stringMatching(
        /taken as right within ± 0\.03 % .*would move .*banks\.capacitance down by .*could not tell\.$/,
      ),
    ]);
  });

  test('takes out a clock that its readings show within what is possible, and no value follows it', async () => {
    const [right, fast] = [await at(0, true), await at(0.0006, true)];
    const { clock, result } = fast;
    expect(clock.is_off).toBe(false);
    expect(Math.abs(clock.seen_ratio! - 0.0006)).toBeLessThan(3 * clock.seen_error_ratio!);
    // As far as the prior lets it: 0.0006 by 0.0003² over that and the square of what the readings know.
    const share = 0.0003 ** 2 / (0.0003 ** 2 + clock.seen_error_ratio! ** 2);
    expect(clock.taken_out_ratio! / (share * clock.seen_ratio!)).toBeCloseTo(1, 1);
    for (const path of ['shelves.droop', 'banks.capacitance']) {
      const { value, interval } = result[path]!;
      const half = (interval![1] - interval![0]) / 2;
      expect(Math.abs(value - right.result[path]!.value), path).toBeLessThan(half / 2);
    }
    expect(clockSentences(fast)[0]).toMatch(
      /^The stamps of the file run 0\.0\d+ % fast .* that was taken out/,
    );
  });

  test('gives no interval where what is left shows a clock that is far off', async () => {
    const { clock, misfit, result, ...report } = await at(0.02, true);
    expect(clock.is_off || misfit.length > 0).toBe(true);
    expect(result['banks.capacitance']!.interval).toBeNull();
    const words = [
      ...misfitSentences({ ...report, clock, misfit, result }),
      ...clockSentences({ clock, misfit, result }),
    ];
    // Before a single edge a wrong place by as much looks the same: both are said first.
    expect(words.slice(0, 2).join(' ')).toMatch(/stamps (?:that )?run \d\.?\d* % fast/);
    expect(words.slice(0, 2).join(' ')).toContain('not at the stated 10 ms');
  });
});

test('a usual clock that looks like a misfit, on a sweep, is taken out, and the intervals hold the truth', async () => {
  const bench = identificationBenches.find(({ name }) => name === 'bench-sweep')!;
  const truth = stepsWith(bench, bench.truth);
  const read = measuredOn(bench, truth, new Random(14), 'within their class');
  const { clock, misfit, result } = await fitted(bench, read, {
    placeGiven: true,
    suspected: false,
    clock: 'usual',
  });
  const drawn_ratio = usualClock * new Random(14).gaussian();
  expect(misfit).toEqual([]);
  expect(Math.abs(clock.taken_out_ratio! - drawn_ratio)).toBeLessThan(3 * clock.known_ratio);
  for (const { path, value } of truthsOf(bench)) expect(holds(result[path]!.interval, value)).toBe(true);
});
