/** A current whose instrument ends below most of what it reads: placed by the rest, and named as what it is. */
import { expect, test } from 'vitest';
import { identificationBenches } from '../../../scripts/identification/benches.ts';
import { measuredOn } from '../../../scripts/identification/measured.ts';
import { recordingFaults } from '../../../scripts/identification/recording-faults.ts';
import { benchWith, simulatedWith, stepsWith } from '../../../scripts/identification/simulated.ts';
import { Random } from '../../../src/loads/random.ts';
import { cutOffAt } from '../../../src/measured/cut-off.ts';
import { layOver } from '../../../src/measured/lay-over.ts';
import { adjustedOf } from '../../../src/studies/fit/adjusted.ts';
import { fitParameters } from '../../../src/studies/fit/fit.ts';
import { firstPlace } from '../../../src/studies/fit/place.ts';

const [bench] = identificationBenches;
const { of } = recordingFaults.find(({ name }) => name === 'current cut off')!;
const whole = measuredOn(bench!, stepsWith(bench!, bench!.truth), new Random(1));
const cut = { ...whole, columns: of(whole.columns) };
const placed = layOver(cut, simulatedWith(bench!, []), { at_s: null });

test('a current that is cut off below its steps is placed by what is left of it', () => {
  expect(cut.columns.map(cutOffAt)).toEqual([[], [Math.max(...cut.columns[1]!.values)]]);
  expect(whole.columns.map(cutOffAt)).toEqual([[], []]);
  expect(placed.aligned).toBe('found');
  expect(Math.abs(placed.at_s - bench!.at_s)).toBeLessThan(bench!.interval_s);
});

test('what a fit names first is that its readings are cut off', async () => {
  const adjusted = adjustedOf(
    bench!.truth.map(({ path }) => path),
    benchWith(bench!, []),
  );
  const report = await fitParameters({
    adjusted,
    measurement: cut,
    place: firstPlace(placed, cut),
    run: async (changes) => simulatedWith(bench!, changes),
  });
  expect(report.would_explain[0]).toMatchObject({ kind: 'readings', path: 'S1.current_A' });
  expect(report.would_explain[0]).toMatchObject({ words: expect.stringMatching(/cut off|clipped/) });
});
