/** A duty in words, as Markdown and as CSV. */
import { namedFew } from '../../analysis/words/named-few.ts';
import { pairText } from '../../analysis/words/pair-text.ts';
import { counted } from '../../base/counted.ts';
import { formatPercent } from '../../base/quantity.ts';
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import { headroomWords } from '../trials/headroom-words.ts';
import { numbersOf } from '../trials/run-outcome.ts';
import { type Letter, letterWords } from '../trials/states.ts';
import { dutyLetter, emptied } from './judge.ts';
import type { DutyReport, DutyStretch } from './report.ts';
import type { DutyFinding } from './settled.ts';

const verdicts: Readonly<Record<Letter, string>> = {
  ...letterWords,
  X: 'collapses or cannot begin',
  E: 'is a numerical failure, without a verdict',
};

/** `8 h`, `3 min`, `30 s`: a length of a stretch as people say it. */
export function lengthWords(s: number): string {
  const [unit, per] =
    s >= 31_557_600 ? ['years', 31_557_600] : s >= 3600 ? ['h', 3600] : s >= 60 ? ['min', 60] : ['s', 1];
  return `${Number((s / (per as number)).toPrecision(3))} ${unit}`;
}

/** When something was, from the beginning of the calendar. */
export function whenWords(s: number): string {
  const [h, min] = [Math.floor(s / 3600), Math.floor((s % 3600) / 60)];
  return `${h} h ${String(min).padStart(2, '0')} min`;
}

/** Value against limit: lives in years, other times as people say them. */
function againstWords(finding: DutyFinding): string {
  if (finding.unit === 's' && finding.value !== null)
    return `${lengthWords(finding.value)} against ${lengthWords(finding.limit)}`;
  const [value, limit] = pairText(finding);
  return `${value} against ${limit}`;
}

export function findingWords(finding: DutyFinding): string {
  const { id, node, stretch, headroom_ratio, verdict } = finding;
  const where = [node === null ? '' : ` at ${node}`, stretch === null ? '' : ` in ${stretch}`].join('');
  const room =
    verdict === 'pass' && headroom_ratio !== null ? `, headroom ${headroomWords(headroom_ratio)}` : '';
  return `${id}${where} ${againstWords(finding)}${room}`;
}

export function dutySentence(report: DutyReport): string {
  const { stretches, findings, round_s, repeat } = report;
  const letter = dutyLetter(report);
  const what = `${lengthWords(round_s)}${repeat > 1 ? `, ${repeat} times,` : ''}`;
  const empties = emptied(report);
  const run = stretches.find((one) => one.letter === letter && one.letter !== 'P' && one.letter !== 'C');
  const failed = findings.filter(({ verdict }) => verdict === 'fail');
  const reasons = [
    ...(empties.length === 0
      ? []
      : [
          `${empties[0]!.who} is empty after ${whenWords(empties[0]!.at_s)}${empties.length > 1 ? `, and ${empties.length - 1} more` : ''}`,
        ]),
    ...failed.map(findingWords),
    ...(run === undefined ? [] : [`the run of ${run.name} ${verdicts[run.letter]}${exceededWords(run)}`]),
  ];
  const open = findings
    .filter(({ verdict }) => verdict === 'open')
    .map(({ id, reason }) => `${id} is not judged (${reason})`);
  if (reasons.length > 0) return `${what} ${verdicts[letter]}: ${[...reasons, ...open].join('; ')}.`;
  const tightest = findings.find(({ verdict }) => verdict === 'pass');
  const closest =
    tightest === undefined ? 'its course judges no limit' : `${findingWords(tightest)} comes closest`;
  return `${what} ${verdicts[letter]}; ${[...open, closest].join('; ')}.`;
}

function exceededWords({ exceeded }: DutyStretch): string {
  const [first] = exceeded;
  if (first === undefined) return '';
  return ` (${first.id} ${numbersOf(first)}${exceeded.length > 1 ? `, and ${exceeded.length - 1} more` : ''})`;
}

/** What repeats, and how often bars and cells that warm up made a stretch run again. */
export function passWords({ repeat, settled_after, stretches, runs, begin }: DutyReport): string {
  const again = stretches.filter(({ again: one }) => one.runs > 0);
  const moved = again.reduce((most, { again: one }) => Math.max(most, one.most_moved_ratio), 0);
  const warm =
    again.length === 0
      ? 'no bar and no cell warms up enough to run a stretch again'
      : `${counted(again.length, 'stretch', 'stretches')} run again with bars and cells as warm as they are, which moved a current by up to ${formatPercent(moved, 2)}; no resistance now lies 1 % from that of its run`;
  const rounds =
    repeat === 1
      ? ''
      : settled_after === null
        ? ` No round of ${repeat} left the cabinet as it found it.`
        : ` From round ${settled_after} on all are alike.`;
  return `${counted(runs, 'run')}, begun ${begin}; ${warm}.${rounds}`;
}

export const stretchHead = ['stretch', 'from', 'lasts', 'its run', 'rests on'] as const;

/** `most`: conditions of a run that are named. */
export function stretchRows({ stretches }: DutyReport, most = 3): PlainRow[] {
  return stretches.map((one) => [
    one.name,
    whenWords(one.from_s),
    lengthWords(one.for_s),
    `${verdicts[one.letter]}${exceededWords(one)}`,
    one.conditions.length === 0 ? '' : namedFew(one.conditions, most, '; '),
  ]);
}

export const findingHead = [
  'limit',
  'verdict',
  'value',
  'headroom',
  'stretch',
  'where',
  'when',
  'because',
] as const;

export function findingRows({ findings }: DutyReport): PlainRow[] {
  return findings.map((one) => [
    one.id,
    one.verdict,
    againstWords(one),
    one.headroom_ratio === null ? '' : headroomWords(one.headroom_ratio),
    one.stretch ?? 'all',
    one.node,
    one.at_s === null ? '' : whenWords(one.at_s),
    one.reason,
  ]);
}

export const momentHead = ['when', 'who', 'what'] as const;

export function momentRows({ moments }: DutyReport): PlainRow[] {
  const words = { empty: 'empty', full: 'full', softened: 'joint runs away, past 200 K' } as const;
  return moments.map(({ at_s, who, what, took_s }) => [
    whenWords(at_s),
    who,
    took_s === null ? words[what] : `${words[what]}, ${lengthWords(took_s)} after it came to rest`,
  ]);
}

export function dutyMarkdown(report: DutyReport): string {
  const { title, about, moments } = report;
  return [
    `# ${title === '' ? `Duty: ${report.study}` : title}`,
    ...(about === '' ? [] : [about]),
    dutySentence(report),
    passWords(report),
    '## Limits judged by the course',
    markdownTable(findingHead, findingRows(report)),
    '## Stretches',
    markdownTable(stretchHead, stretchRows(report)),
    ...(moments.length === 0 ? [] : ['## Moments', markdownTable(momentHead, momentRows(report))]),
    ...report.stretches.map(({ name, replay }) => `Run of ${name}: \`${replay}\``),
    '',
  ].join('\n\n');
}

export function dutyCsv({ findings }: DutyReport): string {
  return csvTable(
    [
      'limit',
      'column',
      'verdict',
      'value',
      'limit_value',
      'unit',
      'headroom_ratio',
      'stretch',
      'node',
      'at_s',
      'because',
    ],
    findings.map((one) => [
      ...[one.id, one.column, one.verdict, one.value, one.limit, one.unit, one.headroom_ratio],
      ...[one.stretch, one.node, one.at_s, one.reason],
    ]),
  );
}

export const courseHead = [
  ...['stretch', 'at_s', 'bar_K', 'joint_K', 'tray_degC', 'bank_degC', 'charge_ratio', 'pack_degC'],
] as const;

export function dutyCourseCsv({ course }: DutyReport): string {
  return csvTable(
    courseHead,
    course.map((one) => [
      ...[one.stretch, one.at_s, one.bar_K, one.joint_K],
      ...[one.tray_degC, one.bank_degC, one.charge_ratio, one.pack_degC],
    ]),
  );
}
