/**
 * Whether tests have teeth: changes one operator or number of the source at a time and runs the tests that should notice.
 * Names every change that none of them notices.
 *
 *   node --import tsx scripts/mutate.ts src/limits tests/limits --count 20
 *   node --import tsx scripts/mutate.ts src/devices/fold-back.ts tests/devices --count 20 --seed 2
 *     --build        builds every change anew: where tests run the compiled kernel or threads
 *
 * The source is a file or a folder of src. A change that survives is no fault by itself: some change nothing that can be
 * seen. The tests must pass as they stand.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Random } from '../src/loads/random.ts';
import { sitesOf } from './mutation/sites.ts';
import { TryOut } from './mutation/try-out.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    build: { type: 'boolean', default: false },
  },
});
const [source, ...tests] = positionals;
if (source === undefined || tests.length === 0)
  throw new Error('name a source and the tests that should notice');

const paths = statSync(source).isFile()
  ? [source]
  : readdirSync(source, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .sort()
      .map((name) => `${source}/${name}`);
const left = paths.flatMap((path) =>
  sitesOf(path, readFileSync(path, 'utf8')).map((site) => ({ path, site })),
);
const places = left.length;
const random = new Random(Number(values.seed));
const tried = new TryOut(`out/mutants/${source.replaceAll('/', '-')}`, tests, values.build);
await tried.passAsTheyStand();

let survivors = 0;
const count = Math.min(Number(values.count), places);
for (let n = 0; n < count; n++) {
  const k = Math.floor(random.uniform() * left.length);
  const { path, site } = left[k]!;
  left.splice(k, 1);
  const found = await tried.notices(path, site);
  if (!found) survivors++;
  console.log(`${found ? 'noticed ' : 'SURVIVES'} ${path}:${site.line} ${site.was} to ${site.becomes}`);
}
console.log(`${source}: ${survivors} of ${count} changes survive, of ${places} places (seed ${values.seed})`);
