import { Random } from '../../src/loads/random.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { isNoise } from '../../src/studies/fit/judge.ts';
import type { IdentificationBench } from './benches.ts';
import { fitted } from './fitted.ts';
import { measuredOn } from './measured.ts';
import { holds } from './right-model.ts';
import { benchWith, stepsWith } from './simulated.ts';
import { truthsOf } from './truths.ts';

/** What the measured cabinet has otherwise, beside its truth: the model knows nothing of it and does not adjust it. */
const unknown: readonly Change[] = [
  { path: 'shelves.set_point', value: '50.3 V' },
  { path: 'shelves.integral_gain', value: '2.4e5 A/(V s)' },
  { path: 'bars.contact.resistance', value: '0.8 mΩ' },
  { path: 'firmware.smoothing.time_constant', value: '0.8 s' },
  { path: 'trays.efficiency', value: '93 %' },
  { path: 'load.edge', value: '3 ms' },
];

export interface Warned {
  readonly of: number;
  readonly refused: number;
  /** An interval was given that misses the truth by more than its own width, of a value that is not said to rest on more. */
  readonly silent: number;
}

export async function wrongModel(bench: IdentificationBench, seeds: readonly number[]): Promise<Warned> {
  let [of, refused, silent] = [0, 0, 0];
  for (const change of unknown) {
    if (!benchWith(bench, []).paths.includes(change.path)) continue;
    const changed = [...bench.truth, change];
    const truths = truthsOf(bench);
    const shown = stepsWith(bench, changed);
    for (const seed of seeds) {
      const report = await fitted(bench, measuredOn(bench, shown, new Random(seed)), {
        placeGiven: true,
        suspected: true,
        clock: 'usual',
      });
      of++;
      if (!isNoise(report)) refused++;
      else {
        const warned = new Set(report.rests_on.flatMap(({ moves }) => Object.keys(moves)));
        const off = truths.filter(({ path, value }) => missesByFar(report.result[path]!.interval, value));
        if (off.some(({ path }) => !warned.has(path))) silent++;
      }
    }
  }
  return { of, refused, silent };
}

function missesByFar(interval: readonly [number, number] | null, value: number): boolean {
  if (interval === null) return false;
  const width = interval[1] - interval[0];
  return !holds([interval[0] - width, interval[1] + width], value);
}
