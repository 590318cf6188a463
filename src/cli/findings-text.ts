/** The findings as a table: what binds first, with its distance drawn. */
import { numberText } from '../analysis/number-text.ts';
import type { Finding } from '../analysis/report.ts';
import { alignColumns, wrap } from './columns.ts';
import type { Paint, Style } from './paint.ts';

const barLength = 10;
/** Passes shown one by one; those with more headroom are counted in one line. */
const passesShown = 10;
/** Of those counted in one line so many are named. */
const restNamed = 8;

const marks: Readonly<Record<Finding['verdict'], readonly [string, Style]>> = {
  pass: ['ok', 'good'],
  fail: ['FAIL', 'bad'],
  inconclusive: ['open', 'open'],
  waived: ['waived', 'open'],
  not_applicable: ['-', 'faint'],
};

/** Lines of the table, wide as the terminal. Findings stand binding first. */
export function findingsText(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const judged = findings.filter((f) => f.verdict === 'fail' || f.verdict === 'pass');
  const fails = judged.filter((f) => f.verdict === 'fail');
  const passes = judged.filter((f) => f.verdict === 'pass');
  const shown = [...fails, ...passes.slice(0, passesShown)];
  const doubted = shown.some((f) => f.doubt_ratio !== null);
  const head = [
    '',
    'limit',
    'value',
    'limit at',
    'headroom',
    '',
    ...(doubted ? ['doubt'] : []),
    'where',
    'when',
  ];
  const rows = alignColumns(
    [head, ...shown.map((f) => cells(f, doubted))],
    new Set([2, 3, 5, ...(doubted ? [6] : [])]),
  );
  const lines = rows.map((row, k) => {
    if (k === 0) return paint('faint', row.join('  ').trimEnd());
    const style = marks[shown[k - 1]!.verdict][1];
    return row
      .map((cell, j) => (j === 0 || j === 4 ? paint(style, cell) : cell))
      .join('  ')
      .trimEnd();
  });
  const rest = passes.slice(passesShown);
  if (rest.length > 0) {
    const least = rest.map((f) => f.headroom_ratio).find((h) => h !== null) ?? null;
    const most = least === null ? '' : `, ${percent(least)} headroom and more`;
    const named = idsOf(rest.slice(0, restNamed));
    const last = rest.length > restNamed ? ` and ${rest.length - restNamed} more (--json)` : '';
    const text = `${rest.length} more inside their limits${most}: ${named}${last}`;
    lines.push(...paragraph(marks.pass[0], text, width).map((line) => paint('faint', line)));
  }
  lines.push(...waived(findings, width, paint));
  lines.push(...reported(findings, width, paint));
  lines.push(...notArising(findings, width, paint));
  lines.push(...inconclusive(findings, width, paint));
  return lines;
}

/** A row of the table; with doubts where the run has measured them. */
function cells(f: Finding, doubted: boolean): string[] {
  const column = f.column === 'normal' ? '' : ` (${f.column})`;
  return [
    marks[f.verdict][0],
    `${f.id}${column}`,
    f.value === null ? '' : numberText(f.value, f.unit),
    f.limit === null ? '' : numberText(f.limit, f.unit),
    bar(f.headroom_ratio),
    f.headroom_ratio === null ? '' : percent(f.headroom_ratio),
    ...(doubted ? [doubt(f)] : []),
    f.node ?? '',
    f.time_s === null ? '' : numberText(f.time_s, 's'),
  ];
}

/** How far the finding moved at half the step; marked where that is more than its headroom. */
function doubt(f: Finding): string {
  if (f.doubt_ratio === null) return '';
  const text = f.doubt_ratio < 5e-4 ? 'below 0.1 %' : `${(100 * f.doubt_ratio).toFixed(1)} %`;
  return f.headroom_ratio !== null && f.doubt_ratio >= Math.abs(f.headroom_ratio)
    ? `${text} > headroom`
    : text;
}

/** Headroom drawn: full is all of the allowed deviation left, `!` marks a limit that is broken. */
export function bar(headroom: number | null): string {
  if (headroom === null) return ''.padEnd(barLength);
  if (headroom < 0) return '!'.padEnd(barLength, '·');
  const filled = Math.round(Math.min(1, headroom) * barLength);
  return '█'.repeat(filled).padEnd(barLength, '·');
}

/** One paragraph for all that could not be judged; each distinct reason stands once, behind its last limit. */
function inconclusive(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const byReason = new Map<string, Finding[]>();
  for (const f of findings) {
    if (f.verdict !== 'inconclusive') continue;
    const reason = f.reason ?? '';
    byReason.set(reason, [...(byReason.get(reason) ?? []), f]);
  }
  if (byReason.size === 0) return [];
  const parts = [...byReason].map(([reason, same]) => `${idsOf(same)}${reason === '' ? '' : ` (${reason})`}`);
  const [mark, style] = marks.inconclusive;
  return paragraph(mark, `inconclusive: ${parts.join('; ')}`, width).map((line) => paint(style, line));
}

/** Each waived limit with what was found and who waives it. */
function waived(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const [mark, style] = marks.waived;
  return findings
    .filter((f) => f.verdict === 'waived')
    .flatMap((f) => {
      const at = f.node === null ? '' : ` at ${f.node}`;
      const found = f.value === null ? '' : ` ${numberText(f.value, f.unit)}${at}`;
      const limit = f.limit === null ? '' : ` against ${numberText(f.limit, f.unit)}`;
      return paragraph(mark, `${idsOf([f])}${found}${limit}; ${f.reason ?? ''}`, width);
    })
    .map((line) => paint(style, line));
}

/** Values that no limit judges. */
function reported(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const told = findings.filter((f) => isReported(f));
  if (told.length === 0) return [];
  const [mark, style] = marks.not_applicable;
  const values = told.map(
    (f) => `${f.id} ${numberText(f.value!, f.unit)}${f.node === null ? '' : ` at ${f.node}`}`,
  );
  return paragraph(mark, `reported, not judged: ${values.join(', ')}`, width).map((line) =>
    paint(style, line),
  );
}

function isReported(f: Finding): boolean {
  return f.verdict === 'not_applicable' && f.limit === null && f.value !== null;
}

/** Only the names: why is in the report, and one screen is what fits. */
function notArising(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const none = findings.filter((f) => f.verdict === 'not_applicable' && !isReported(f));
  if (none.length === 0) return [];
  const [mark, style] = marks.not_applicable;
  const text = `does not arise in this run (why: --json): ${idsOf(none)}`;
  return paragraph(mark, text, width).map((line) => paint(style, line));
}

function paragraph(mark: string, text: string, width: number): string[] {
  return wrap(`${mark.padEnd(4)}  ${text}`, width, '      ');
}

function idsOf(findings: readonly Finding[]): string {
  return findings.map((f) => (f.column === 'carry' ? `${f.id} (carry)` : f.id)).join(', ');
}

function percent(ratio: number): string {
  const digits = ratio !== 0 && Math.abs(ratio) < 0.01 ? 1 : 0;
  return `${(100 * ratio).toFixed(digits)} %`;
}
