/** Runs every shipped scenario and writes how it comes out, and why, into scenarios/verdicts.md. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { Report } from '../src/analysis/judge/report.ts';
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { run } from '../src/run.ts';
import { fill } from './between-marks.ts';

const page = 'scenarios/verdicts.md';

const words: Readonly<Record<Report['verdict'], string>> = {
  pass: 'pass',
  pass_with_conditions: 'pass with conditions',
  fail: 'fail',
  inconclusive: 'inconclusive',
};

/** The sentence behind the verdict, its ids as code, short enough for a table. */
function because(report: Report): string {
  const sentence = report.summary.replace(/^[^:]*: /, '').replace(/\.$/, '');
  return sentence.replaceAll('|', '\\|');
}

const rows = readdirSync('scenarios')
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) => {
    const id = name.replace('.yaml', '');
    const { scenario, recorded } = scenarioToRun(id, []);
    const { report } = run(scenario, recorded);
    console.error(`${id}: ${words[report.verdict]}`);
    return `| [${id}](${name}) | ${scenario.title} | ${words[report.verdict]} | ${report.outcome.kind} | ${because(report)} |`;
  });

const text = readFileSync(page, 'utf8');
const table = [
  '| scenario | what | verdict | outcome | what decides, and what conditions it |',
  '|---|---|---|---|---|',
  ...rows,
].join('\n');
writeFileSync(page, fill(text, 'verdicts', table));
console.log(`${rows.length} scenarios in ${page}`);
