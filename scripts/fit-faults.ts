/**
 * Which fault a fit names first: each fault of a recording on each bench for identification, placed and fitted as a user
 * would, one seed. Says what was named, with the share of the misfit that it explains; a fault that leaves noise is not
 * seen, and the interval that is given then holds the truth or does not. Ends with 1 where a named one is another.
 *
 *   node --import tsx scripts/fit-faults.ts --bench bench-step
 */
import { parseArgs } from 'node:util';
import { Random } from '../src/loads/random.ts';
import { layOver } from '../src/measured/lay-over.ts';
import { adjustedOf } from '../src/studies/fit/adjusted.ts';
import { fitParameters } from '../src/studies/fit/fit.ts';
import type { FitReport } from '../src/studies/fit/fit-report.ts';
import { isNoise } from '../src/studies/fit/judge.ts';
import { firstPlace } from '../src/studies/fit/place.ts';
import { suspectsIn } from '../src/studies/fit/usual-suspects.ts';
import { type IdentificationBench, identificationBenches } from './identification/benches.ts';
import { measuredOn } from './identification/measured.ts';
import { type RecordingFault, recordingFaults } from './identification/recording-faults.ts';
import { benchWith, simulatedWith, stepsWith } from './identification/simulated.ts';

const { values: asked } = parseArgs({
  options: { bench: { type: 'string' }, seed: { type: 'string', default: '1' } },
});

/** What is said of it: a fault and its share, a refusal, or nothing. */
async function saidOf(bench: IdentificationBench, { of }: RecordingFault): Promise<FitReport | string> {
  const read = benchWith(bench, []);
  const whole = measuredOn(bench, stepsWith(bench, bench.truth), new Random(Number(asked.seed)));
  const measurement = { ...whole, columns: of(whole.columns) };
  const placed = layOver(measurement, simulatedWith(bench, []), { at_s: null });
  if (placed.aligned === 'assumed') return `not placed: ${placed.warnings.at(-1)}`;
  const adjusted = adjustedOf(
    bench.truth.map(({ path }) => path),
    read,
  );
  return fitParameters({
    adjusted,
    suspects: suspectsIn(read, adjusted),
    measurement,
    place: firstPlace(placed, measurement),
    run: async (changes) => simulatedWith(bench, changes),
  });
}

function firstNamed(report: FitReport): string {
  const [best] = report.would_explain;
  if (best !== undefined) return best.kind;
  return report.clock.is_off ? 'clock' : 'none';
}

let good = true;
for (const bench of identificationBenches) {
  if (asked.bench !== undefined && asked.bench !== bench.name) continue;
  for (const fault of recordingFaults) {
    const report = await saidOf(bench, fault);
    const said = typeof report === 'string' ? report : isNoise(report) ? 'not seen' : firstNamed(report);
    const isRight = typeof report === 'string' || said === 'not seen' || fault.named.includes(said);
    good &&= isRight;
    const beside =
      typeof report === 'string'
        ? ''
        : report.would_explain
            .map(
              (one) =>
                `${one.kind}${'path' in one ? ` ${one.path}` : ''} ${(100 * one.explains_ratio).toFixed(0)} %`,
            )
            .join(', ');
    console.log(`${bench.name}  ${fault.name}  ${isRight ? '' : 'WRONG  '}${said}  ${beside}`);
  }
}
process.exitCode = good ? 0 : 1;
