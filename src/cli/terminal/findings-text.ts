/** The findings for a terminal: the table of what binds, and in paragraphs what is not in it. */

import type { Finding } from '../../analysis/judge/report.ts';
import { limitName } from '../../analysis/words/limit-name.ts';
import { namedFew } from '../../analysis/words/named-few.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { headroomText } from '../../analysis/words/pair-text.ts';
import { wrap } from './columns.ts';
import { findingsTable, marks, named } from './findings-table.ts';
import type { Paint } from './paint.ts';

/** Behind fails fewer passes are enough. */
const passesBehindFails = 3;

export interface FindingsStyle {
  readonly width: number;
  readonly paint: Paint;
  readonly verbose: boolean;
  /** Passes shown one by one in short; those with more headroom are counted in one line. */
  readonly passes: number;
}

/** Lines of the table, wide as the terminal. Findings stand binding first. */
export function findingsText(findings: readonly Finding[], style: FindingsStyle): string[] {
  const { width, paint, verbose } = style;
  const fails = findings.filter((f) => f.verdict === 'fail');
  const passes = findings.filter((f) => f.verdict === 'pass');
  const behind = fails.length === 0 ? style.passes : passesBehindFails;
  const most = verbose ? passes.length : behind;
  const shown = [...fails, ...passes.slice(0, most)];
  return [
    ...findingsTable(shown, paint),
    ...(verbose ? [] : counted(passes.slice(most), findings, width, paint)),
    ...outside(findings, style),
    ...waived(findings, width, paint),
    ...(verbose
      ? [
          ...reported(findings, width, paint),
          ...notArising(findings, width, paint),
          ...inconclusive(findings, width, paint),
        ]
      : inconclusiveInShort(findings, width, paint)),
  ];
}

/** In short: how many more pass, and how many limits cannot arise. */
function counted(
  rest: readonly Finding[],
  findings: readonly Finding[],
  width: number,
  paint: Paint,
): string[] {
  const none = findings.filter((f) => f.verdict === 'not_applicable').length;
  const parts = [
    ...(rest.length === 0 ? [] : [insideWords(rest)]),
    ...(none === 0 ? [] : [`${none} cannot arise or are only reported`]),
  ];
  if (parts.length === 0) return [];
  return paragraph(marks.pass[0], parts.join('; '), width).map((line) => paint('faint', line));
}

function insideWords(rest: readonly Finding[]): string {
  const least = rest.map((f) => f.headroom_ratio).find((h) => h !== null) ?? null;
  const most = least === null ? '' : `, ${headroomText(least)} headroom and more`;
  return `${rest.length} more inside their limits${most}`;
}

/** The worst values where their limits are not judged: in short the first few, binding first. */
function outside(findings: readonly Finding[], { width, paint, verbose }: FindingsStyle): string[] {
  const rows = findings.flatMap((f) => {
    const { worst_outside: worst } = f;
    if (worst === null) return [];
    const when = worst.time_s === null ? '' : ` at ${numberText(worst.time_s, 's')}`;
    return [`${named(f)} ${numberText(worst.value, f.unit)}${when} (${worst.reason})`];
  });
  if (rows.length === 0) return [];
  const text = `outside of what is judged: ${verbose ? rows.join('; ') : namedFew(rows, outsideNamed, '; ')}`;
  return paragraph(marks.not_applicable[0], text, width).map((line) => paint('open', line));
}

const outsideNamed = 2;

/** One paragraph for all that could not be judged; each distinct reason stands once, behind its last limit. */
function inconclusive(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const byReason = new Map<string, Finding[]>();
  for (const f of findings) {
    if (f.verdict !== 'inconclusive') continue;
    const reason = f.reason ?? '';
    byReason.set(reason, [...(byReason.get(reason) ?? []), f]);
  }
  if (byReason.size === 0) return [];
  const parts = [...byReason].map(
    ([reason, same]) => `${same.map(limitName).join(', ')}${reason === '' ? '' : ` (${reason})`}`,
  );
  const [mark, style] = marks.inconclusive;
  return paragraph(mark, `inconclusive: ${parts.join('; ')}`, width).map((line) => paint(style, line));
}

/** By name: why stands in the full text. */
function inconclusiveInShort(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const open = findings.filter((f) => f.verdict === 'inconclusive');
  if (open.length === 0) return [];
  const [mark, style] = marks.inconclusive;
  const text = `inconclusive: ${namedFew(open.map(limitName), openNamed)} (why: -v)`;
  return paragraph(mark, text, width).map((line) => paint(style, line));
}

const openNamed = 4;

/** Each waived limit with what was found and who waives it. */
function waived(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const [mark, style] = marks.waived;
  return findings
    .filter((f) => f.verdict === 'waived')
    .flatMap((f) => {
      const at = f.node === null ? '' : ` at ${f.node}`;
      const found = f.value === null ? '' : ` ${numberText(f.value, f.unit)}${at}`;
      const limit = f.limit === null ? '' : ` against ${numberText(f.limit, f.unit)}`;
      return paragraph(mark, `${named(f)}${found}${limit}; ${f.reason ?? ''}`, width);
    })
    .map((line) => paint(style, line));
}

/** Values that no limit judges, and lives, which a run reckons and does not judge. */
function reported(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const told = findings.filter((f) => isReported(f));
  if (told.length === 0) return [];
  const [mark, style] = marks.not_applicable;
  const values = told.map(
    (f) =>
      `${f.id} ${numberText(f.value!, f.unit)}${f.limit === null ? '' : ` against ${numberText(f.limit, f.unit)}`}${f.node === null ? '' : ` at ${f.node}`}`,
  );
  // Of a time that a limit is stated for: a life, as other times are judged where they are reported.
  const lives = told.filter(({ unit, limit }) => unit === 's' && limit !== null).map(({ id }) => id);
  const judgedBy = lives.length === 0 ? '' : `; buswake duty judges ${lives.join(' and ')} over a calendar`;
  return paragraph(mark, `reported, not judged: ${values.join(', ')}${judgedBy}`, width).map((line) =>
    paint(style, line),
  );
}

function isReported(f: Finding): boolean {
  return f.verdict === 'not_applicable' && f.value !== null;
}

/** Only the names: why is in the report. */
function notArising(findings: readonly Finding[], width: number, paint: Paint): string[] {
  const none = findings.filter((f) => f.verdict === 'not_applicable' && !isReported(f));
  if (none.length === 0) return [];
  const [mark, style] = marks.not_applicable;
  const text = `cannot arise in this run (why: --json): ${none.map(limitName).join(', ')}`;
  return paragraph(mark, text, width).map((line) => paint(style, line));
}

function paragraph(mark: string, text: string, width: number): string[] {
  return wrap(`${mark.padEnd(4)}  ${text}`, width, '      ');
}
