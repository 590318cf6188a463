import { describe, expect, test } from 'vitest';
import { curvesOf, everyStep } from '../../scripts/identification/every-step.ts';
import { readingOf } from '../../scripts/identification/instrument.ts';
import { measuredText } from '../../src/cli/terminal/measured-text.ts';
import { Random } from '../../src/loads/random.ts';
import { layOver } from '../../src/measured/lay-over.ts';
import { readShipped } from '../scenario/shipped.ts';

const noiseOf: Readonly<Record<string, number>> = { 'A.S1.voltage_V': 0.004, 'S1.current_A': 0.5 };
const { scenario } = readShipped('scenarios/bench-step.yaml');
const rows = everyStep(scenario, Object.keys(noiseOf));

/** The run itself from a time on up to another, at 1 kHz with noise, laid over it. */
function laidOver(from_s: number, seed: number, to_s = rows.window.to_s - 0.002) {
  const random = new Random(seed);
  const length = Math.floor((to_s - from_s) / 0.001);
  const time_s = Float64Array.from({ length }, (_, k) => 0.001 * k);
  const columns = rows.channels.map((channel) => {
    const reading = readingOf(rows, channel, undefined);
    const values = time_s.map((t) => reading(from_s + t) + noiseOf[channel]! * random.gaussian());
    return { column: channel, channel, time_s, values };
  });
  const measurement = { file: 'late.csv', sha256: '', columns, remarks: [], warnings: [] };
  return layOver(measurement, curvesOf(rows, columns), { at_s: null });
}

describe('a file that begins on a settling curve', () => {
  test.each([0.0803, 0.1103, 0.2103])(
    'at %f s lies in its interval, which says how little it shows',
    (from_s) => {
      for (const seed of [1, 2]) {
        const report = laidOver(from_s, seed);
        const { aligned, at_interval_s, warnings } = report;
        expect(aligned).toBe('found');
        const [low, high] = at_interval_s!;
        expect([low < from_s, from_s < high, high - low < 0.1]).toEqual([true, true, true]);
        expect(warnings.join(' ')).toMatch(/^The place is known to ± [\d.]+ ms only/);
        // One width in all of the text.
        const widths = [...measuredText(report).matchAll(/to (± [\d.]+ ms)/g)].map(([, width]) => width);
        expect([widths.length, new Set(widths).size]).toEqual([2, 1]);
      }
    },
  );
});

test('stamps rounded to a coarse tick, several samples at each, end in an answer', () => {
  const time_s = Float64Array.from({ length: 250 }, (_, k) => 0.005 * Math.floor(k / 5) + 1e-9 * (k % 5));
  const columns = rows.channels.map((channel) => {
    const reading = readingOf(rows, channel, undefined);
    return { column: channel, channel, time_s, values: time_s.map((_, k) => reading(0.02 + 0.001 * k)) };
  });
  const report = layOver(
    { file: 'ticks.csv', sha256: '', columns, remarks: [], warnings: [] },
    curvesOf(rows, columns),
    {
      at_s: null,
    },
  );
  // Off by up to a tick, and said.
  expect(Math.abs(report.at_s - 0.02)).toBeLessThan(0.005);
  expect(report.warnings.join(' ')).toMatch(/is not noise/);
});

test('a file that ends before anything happens is not moved, and its clock is not spoken of', () => {
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    const report = laidOver(0, seed, 0.045);
    expect([report.aligned, report.at_s]).toEqual(['assumed', 0]);
    expect(report.warnings.join(' ')).toContain('Nothing is moved');
    expect(measuredText(report)).not.toContain('clock');
  }
});

test('a place without a clock says what the clock is taken to be', () => {
  const report = laidOver(0, 1);
  expect([report.aligned, report.clock_rate_ratio]).toEqual(['found', null]);
  expect(measuredText(report)).toContain(
    "its clock is not told apart: taken to run within 300 ppm of the run's",
  );
});
