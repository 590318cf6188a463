/**
 * What takes hours and is run by hand: every series whose share runs in the tests, whole. Each prints its counts; what ends
 * with 1 is named at the end.
 *
 *   npm run long
 *   npm run long -- kept-fuzz kills        some of them
 */
import { spawnSync } from 'node:child_process';

const series: readonly (readonly [script: string, ...words: string[]])[] = [
  ['recording-fuzz', '--count', '20000'],
  ['scenario-fuzz', '--count', '20000'],
  ['kept-fuzz', '--count', '2000'],
  ['kills', '--count', '200'],
  ['random-cabinets', '--count', '2000'],
  ['random-cabinets', '--count', '50', '--seed', '2', '--refine'],
  ['benches', '--count', '200'],
  ['fit-coverage', '--count', '200', '--bench', 'bench-step'],
  ['fit-coverage', '--count', '200', '--bench', 'bench-sweep'],
  ['fit-coverage', '--count', '200', '--bench', 'bench-discharge'],
];

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !series.some(([script]) => script === name));
if (unknown.length > 0) throw new RangeError(`${unknown.join(', ')}: no such series`);
const chosen = series.filter(([script]) => asked.length === 0 || asked.includes(script));
const wrong = chosen.filter(([script, ...words]) => {
  process.stdout.write(`\n${[script, ...words].join(' ')}\n`);
  const command = ['--import', 'tsx', `scripts/${script}.ts`, ...words];
  return spawnSync(process.execPath, command, { stdio: 'inherit' }).status !== 0;
});
process.stdout.write(
  `\n${chosen.length - wrong.length} of ${chosen.length} series clean${wrong.map((words) => `; not ${words.join(' ')}`).join('')}\n`,
);
process.exitCode = wrong.length === 0 ? 0 : 1;
