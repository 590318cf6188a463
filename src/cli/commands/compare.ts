/** `buswake compare`: two kept runs, what changed between them. */

import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Command } from 'commander';
import { cautionLines, cautionsAt } from '../../analysis/words/cautions.ts';
import { metricWords } from '../../analysis/words/metric-words.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { headroomText, pairText } from '../../analysis/words/pair-text.ts';
import { counted } from '../../base/counted.ts';
import { formatPercent } from '../../base/quantity.ts';
import { readBundle } from '../../bundle/read.ts';
import { refuseExisting, writeWhole } from '../../disk/write-file.ts';
import { changedInputs } from '../../studies/compare/changed-inputs.ts';
import {
  type ChangedFinding,
  type ChangedMetric,
  type ComparedRun,
  type Comparison,
  compare,
} from '../../studies/compare/compare.ts';
import { windowWords } from '../../studies/compare/window-words.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { refusePrecious } from '../disk/refuse-precious.ts';
import { jsonText } from '../disk/study-files.ts';
import { refuseStudyDir } from '../disk/study-folder.ts';
import { againWords } from '../options/again.ts';
import { needs, ruled } from '../options/rules/rule.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { makeComparePage } from '../pages/compare-page.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { tableText } from '../terminal/study/table-text.ts';

interface CompareOptions {
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly color: boolean;
}

const examples = `Examples:
  buswake run pulse-train --out out/before
  buswake run pulse-train --set trays.capacitance="130 F" --out out/after
  buswake compare out/before out/after
  buswake compare out/before out/after --out compare.html
`;

export function compareCommand(): Command {
  const command = new Command('compare')
    .argument('<before>', 'directory that `run --out` wrote')
    .argument('<after>', 'another one')
    .option('-o, --out <file>', 'write a page that lays the two runs over or beside each other')
    .addOption(forceOption('a file'))
    .option('-q, --quiet', 'leave out the next step')
    .addOption(jsonOption())
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(compareRuns);
  return ruled(command, [
    needs(
      '--force',
      ['--out'],
      'a file that it may overwrite: without --out none is written',
      'leave it out',
    ),
  ]);
}

async function compareRuns(
  beforeDir: string,
  afterDir: string,
  { json, out, force, quiet, color }: CompareOptions,
  command: Command,
): Promise<void> {
  if (out !== undefined) {
    refuseExisting([out], force === true);
    refusePrecious([out], []);
  }
  for (const dir of [beforeDir, afterDir]) refuseStudyDir(dir);
  const [before, after] = [readBundle(beforeDir), readBundle(afterDir)];
  const comparison = compare(before, after);
  if (out !== undefined)
    writeWhole(resolve(out), makeComparePage(comparison, before, after), { force: force === true });
  const text =
    json === true
      ? jsonText(comparison)
      : `${compareText(comparison, paintFor(process.stdout, color))}\n${cautionLines(cautionsAt(before.scenario.nominal_V, after.scenario.nominal_V)).join('\n')}\n`;
  process.stdout.write(text);
  if (json === true || quiet === true) return;
  const page = [againWords(command, beforeDir), quotedPlace(afterDir), '--out compare.html'].join(' ');
  process.stdout.write(
    out === undefined
      ? `\nnext  see them over each other: ${page}\n`
      : `\nOpen the page in a browser: ${pathToFileURL(resolve(out)).href}\n`,
  );
}

/** Changed inputs are listed up to here, and changed headrooms. */
const shownInputs = 20;
const shownFindings = 10;

/** Metrics of two runs that are nearly the same differ in later digits than a single run shows. */
const significant = 5;

/** What turned of the runs as wholes: status, verdict, outcome. */
function turnedWords(before: ComparedRun, after: ComparedRun): string[] {
  const line = (what: string, a: string, b: string): string[] =>
    a === b ? [] : [`  ${what}: ${a.replaceAll('_', ' ')} → ${b.replaceAll('_', ' ')}`];
  const outcome = ({ outcome: { kind, because } }: ComparedRun): string => `${kind} (${because})`;
  return [
    ...line('status', before.status, after.status),
    ...line('verdict', before.verdict, after.verdict),
    ...line('outcome', outcome(before), outcome(after)),
  ];
}

export function compareText(
  { before, after, basis, inputs, metrics, findings }: Comparison,
  paint: Paint,
): string {
  const worded = (those: readonly ChangedFinding[]): string[] =>
    those.map(findingWords).filter((words) => words !== null);
  const turned = worded(findings.filter((finding) => finding.turned));
  const others = worded(findings.filter((finding) => !finding.turned));
  const rows = metrics.map(metricRow).filter(([, was, is]) => was !== is);
  const alike = metrics.length + findings.length - rows.length - turned.length - others.length;
  const lines = changedInputs(inputs);
  const more = lines.length - shownInputs;
  const judged = windowWords(before, after);
  return [
    ...wrap(`before  ${before.scenario}: ${before.summary}`, 120, '        '),
    ...wrap(`after   ${after.scenario}: ${after.summary}`, 120, '        '),
    ...turnedWords(before, after),
    ...(judged === null ? [] : wrap(`  ${judged}`, 120, '    ')),
    ...basis.gone.map(({ what }) => `  no longer rests on: ${what}`),
    ...basis.come.map(({ what }) => `  now rests on: ${what}`),
    '',
    paint('strong', inputs.length === 0 ? 'no input changed' : `${counted(inputs.length, 'input')} changed`),
    ...lines.slice(0, shownInputs).map((line) => `  ${line}`),
    ...(more > 0 ? [`  … and ${more} more; --json lists them all`] : []),
    '',
    paint('strong', rows.length === 0 ? 'no metric changed' : 'metrics'),
    ...(rows.length === 0
      ? []
      : tableText(['', 'before', 'after', 'change'], rows, paint, new Set([1, 2, 3]))),
    '',
    paint('strong', turned.length === 0 ? 'no verdict changed' : 'changed verdicts'),
    ...turned.map((words) => `  ${words}`),
    ...(others.length === 0 ? [] : ['', paint('strong', 'changed headroom')]),
    ...others.slice(0, shownFindings).map((words) => `  ${words}`),
    ...(others.length > shownFindings
      ? [`  … and ${others.length - shownFindings} more; --json lists them all`]
      : []),
    ...(alike > 0
      ? ['', paint('faint', `alike but for later digits: ${counted(alike, 'number')}; --json lists them`)]
      : []),
  ].join('\n');
}

/** Null where both sides read alike: they differ in later digits alone. */
function findingWords({ id, before, after }: ChangedFinding): string | null {
  const side = (one: ChangedFinding['before']): string => {
    if (one === null) return 'not a limit';
    const [value, limit] = pairText(one);
    // Which side it stands on: 26 % beside a lowest of 5 % reads like a violation otherwise.
    const least = one.bound === 'lower' ? 'at least' : 'at most';
    const against = limit === '' ? value : `${value} (${least} ${limit})`;
    const room = one.headroom_ratio === null ? '' : `, ${roomWords(one.headroom_ratio)}`;
    const doubt = one.within_doubt ? ', within the doubt' : '';
    return `${one.verdict.replaceAll('_', ' ')}${doubt}${value === '' ? '' : ` ${against}`}${room}`;
  };
  const [was, is] = [side(before), side(after)];
  return was === is ? null : `${id}: ${was} → ${is}`;
}

/** What is left of the allowed deviation, or by how much of it the limit is exceeded. */
function roomWords(ratio: number): string {
  if (ratio < 0) return `${headroomText(-ratio)} beyond the limit`;
  return ratio === 0 ? headroomText(ratio) : `headroom ${headroomText(ratio)}`;
}

function metricRow({ name, before, after, ratio }: ChangedMetric): string[] {
  const [, words, unit] = metricWords.find(([metric]) => metric === name) ?? [name, name, ''];
  const text = (value: number | null): string =>
    value === null ? 'none' : numberText(value, unit, significant);
  const change = ratio === null ? '' : `${ratio > 0 ? '+' : ''}${formatPercent(ratio)}`;
  return [words, text(before), text(after), change];
}
