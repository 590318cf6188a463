/**
 * Coverage of the 95 % intervals of `fit`: how many of N noisy repetitions of each bench hold the truth, by parameter;
 * and what it says where the bench differs from the model in something that is not adjusted. Seeds from 1 on. Ends with
 * 1 where a share lies outside 91 to 98.5 %, or an interval of a wrong model misses the truth and nothing warns.
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
  const right = await rightModel(bench, seeds);
  for (const { path, held, of, linearHeld } of right.parameters) {
    const share = held / of;
    // A few repetitions cannot lie between: their share is told and not judged.
    if (count >= 200) good &&= share >= 0.91 && share <= 0.985;
    console.log(`${bench.name}  right model  ${path}  ${held} of ${of} hold it, linear ${linearHeld}`);
  }
  console.log(`${bench.name}  right model  place  ${right.place.held} of ${right.place.of} hold it`);
  console.log(`${bench.name}  right model  without an interval: ${right.refused} of ${count}`);
  const wrong = await wrongModel(bench, seeds.slice(0, Math.ceil(count / 10)));
  good &&= wrong.silent === 0;
  console.log(
    `${bench.name}  wrong model  ${wrong.refused} of ${wrong.of} without an interval, ${wrong.silent} off in silence`,
  );
}
process.exitCode = good ? 0 : 1;
