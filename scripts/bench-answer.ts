/**
 * Time from a command to its answer in two checkouts, both built, taken in turn:
 *
 *   node --import tsx scripts/bench-answer.ts OTHER ROUNDS size trays
 *
 * Given are the medians of the rounds' ratios of this checkout over the other, of wall time and of processor time, after a round that
 * warms up. Of wall time a machine that others use tells little; processor time has all threads of the command.
 */
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';

const [other, count, ...words] = process.argv.slice(2);
const rounds = Number(count);
if (other === undefined || !(rounds >= 1) || words.length === 0)
  throw new RangeError('name the folder of the other checkout, how many rounds, and a command');

interface Spent {
  readonly wall_s: number;
  readonly cpu_s: number;
}

function spent(checkout: string): Spent {
  const before = performance.now();
  const timed = `node scripts/buswake.mjs "$@" >/dev/null 2>&1; echo $?; times`;
  const { stdout } = spawnSync('sh', ['-c', timed, 'sh', ...words], { cwd: checkout, encoding: 'utf8' });
  const wall_s = (performance.now() - before) / 1000;
  const [code = '', , children = ''] = stdout.trim().split('\n');
  if (!['0', '4', '6'].includes(code)) throw new RangeError(`in ${checkout} it ended with ${code}`);
  const parts = [...children.matchAll(/(\d+)m([\d.]+)s/g)];
  return { wall_s, cpu_s: parts.reduce((sum, [, m, s]) => sum + 60 * Number(m) + Number(s), 0) };
}

const checkouts = [resolve(other), process.cwd()] as const;
const ratios: Spent[] = [];
for (let round = 0; round <= rounds; round++) {
  const took: Spent[] = [];
  for (const k of round % 2 === 0 ? [0, 1] : [1, 0]) took[k] = spent(checkouts[k]!);
  const [theirs, ours] = [took[0]!, took[1]!];
  const said = ({ wall_s, cpu_s }: Spent): string => `${wall_s.toFixed(1)} s (${cpu_s.toFixed(1)} s)`;
  console.log(`${round === 0 ? 'warm-up' : `round ${round}`}: other ${said(theirs)}, this ${said(ours)}`);
  if (round > 0) ratios.push({ wall_s: ours.wall_s / theirs.wall_s, cpu_s: ours.cpu_s / theirs.cpu_s });
}

function median(values: readonly number[]): string {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!.toFixed(3);
}

console.log(
  `median ratio: wall ${median(ratios.map(({ wall_s }) => wall_s))}, processor ${median(ratios.map(({ cpu_s }) => cpu_s))}`,
);
