/**
 * Whether the tests have teeth: changes one operator or number of a source file at a time and runs the tests of its
 * part. Names every change that none of them notices.
 *
 *   node --import tsx scripts/mutate.ts src/firmware --count 20
 *     --seed 2       other changes
 *
 * A change that survives is no fault by itself: some change nothing that can be seen. It takes 10 s to some minutes each.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Random } from '../src/loads/random.ts';
import { sitesOf } from './mutation/sites.ts';
import { testsOf } from './mutation/tests-of.ts';
import { TryOut } from './mutation/try-out.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { count: { type: 'string', default: '20' }, seed: { type: 'string', default: '1' } },
});
const [part = 'src/devices'] = positionals;
const { stages, builds } = testsOf(part);
const tried = new TryOut(`out/mutants/${part.replaceAll('/', '-')}`, stages, builds);

const random = new Random(Number(values.seed));
const all = readdirSync(part, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .sort()
  .map((name) => `${part}/${name}`)
  .flatMap((path) => sitesOf(path, readFileSync(path, 'utf8')).map((site) => ({ path, site })));
let survivors = 0;
for (let n = 0; n < Number(values.count); n++) {
  const { path, site } = all[Math.floor(random.uniform() * all.length)]!;
  const found = await tried.notices(path, site);
  if (!found) survivors++;
  console.log(`${found ? 'noticed ' : 'SURVIVES'} ${path}:${site.line} ${site.was} to ${site.becomes}`);
}
console.log(
  `${part}: ${survivors} of ${values.count} changes survive (${all.length} places, seed ${values.seed})`,
);
