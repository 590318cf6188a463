/**
 * Coverage of the 95 % intervals of `fit`: how many of N noisy repetitions of each bench hold the truth, by parameter,
 * with instruments that are exact and declared so; as many with instruments that are off anywhere within their class; and
 * what it says where the bench differs from the model in something that is not adjusted. Seeds from 1 on. Ends with 1
 * where a share lies outside 91 to 98.5 %, or an interval of a wrong model misses the truth and nothing warns. With
 * instruments by their class only the lower bound is held: a class as a standard deviation, a/√3, is 1.13 a at 95 %, so
 * that where noise is small beside it every interval holds the truth.
 *
 *   node --import tsx scripts/fit-coverage.ts --count 200
 */
import { parseArgs } from 'node:util';
import { identificationBenches } from './identification/benches.ts';
import { rightModel } from './identification/right-model.ts';
import { wrongModel } from './identification/wrong-model.ts';

const { values: asked } = parseArgs({
  options: { count: { type: 'string', default: '200' }, bench: { type: 'string' } },
});
const count = Number(asked.count);
const seeds = Array.from({ length: count }, (_, k) => k + 1);
let good = true;
for (const bench of identificationBenches) {
  if (asked.bench !== undefined && asked.bench !== bench.name) continue;
  for (const instruments of ['exact', 'within their class'] as const) {
    const exact = instruments === 'exact';
    const right = await rightModel(bench, seeds, instruments);
    const of = `${bench.name}  right model, instruments ${instruments}`;
    for (const { path, held, of: given, linearHeld } of right.parameters) {
      const share = held / given;
      // A few repetitions cannot lie between: their share is told and not judged.
      if (count >= 200) good &&= share >= 0.91 && (!exact || share <= 0.985);
      console.log(`${of}  ${path}  ${held} of ${given} hold it, linear ${linearHeld}`);
    }
    console.log(`${of}  place  ${right.place.held} of ${right.place.of} hold it`);
    console.log(`${of}  without an interval: ${right.refused} of ${count}`);
  }
  const wrong = await wrongModel(bench, seeds.slice(0, Math.ceil(count / 10)));
  good &&= wrong.silent === 0;
  console.log(
    `${bench.name}  wrong model  ${wrong.refused} of ${wrong.of} without an interval, ${wrong.silent} off in silence`,
  );
}
process.exitCode = good ? 0 : 1;
