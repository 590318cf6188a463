/** Runs the tests of published cases and writes their table from what they found. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { caseRow, casesPage, type TableCase, withTable } from './cases-table.ts';

rmSync('out/cases', { recursive: true, force: true });
const { status } = spawnSync(
  'npx',
  ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--reporter=dot', 'tests/reference'],
  { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, WRITE_CASES: '1' } },
);
if (status !== 0) {
  console.error('A published case fails: npx vitest run --config tests/vitest.config.ts tests/reference');
  process.exit(1);
}
const rows = readdirSync('out/cases')
  .sort()
  .flatMap((name) => JSON.parse(readFileSync(`out/cases/${name}`, 'utf8')) as TableCase[])
  .map(caseRow);
writeFileSync(casesPage, withTable(readFileSync(casesPage, 'utf8'), rows));
console.log(`${rows.length} published cases in ${casesPage}`);
