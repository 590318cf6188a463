/** The table of findings: value and limit side by side, headroom drawn, where and when. */

import type { Finding } from '../../analysis/judge/report.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { headroomText, pairText } from '../../analysis/words/pair-text.ts';
import { alignColumns } from './columns.ts';
import type { Paint, Style } from './paint.ts';

const barLength = 10;

/** Word and style of each way a limit can come out. */
export const marks: Readonly<Record<Finding['verdict'], readonly [string, Style]>> = {
  pass: ['ok', 'good'],
  fail: ['FAIL', 'bad'],
  inconclusive: ['open', 'open'],
  waived: ['waived', 'open'],
  not_applicable: ['-', 'faint'],
};

/** Fails and passes, one a row, with the distance to the limit drawn. */
export function findingsTable(shown: readonly Finding[], paint: Paint): string[] {
  const columns = columnsOf(shown);
  const rows = alignColumns(
    [columns.map(({ head }) => head), ...shown.map((f) => columns.map(({ cell }) => cell(f)))],
    new Set(columns.flatMap(({ right }, k) => (right ? [k] : []))),
  );
  return rows.map((row, k) => {
    if (k === 0) return paint('faint', row.join('  ').trimEnd());
    const style = marks[shown[k - 1]!.verdict][1];
    return row
      .map((cell, j) => (columns[j]!.colours === true ? paint(style, cell) : cell))
      .join('  ')
      .trimEnd();
  });
}

interface FindingColumn {
  readonly head: string;
  readonly right?: true;
  readonly colours?: true;
  cell(f: Finding): string;
}

/** Doubt stands where it was measured, the share seen where it is not the whole window. */
function columnsOf(shown: readonly Finding[]): readonly FindingColumn[] {
  const doubted = shown.some((f) => f.doubt_ratio !== null);
  const partly = shown.some(isPartlySeen);
  return [
    { head: '', colours: true, cell: (f) => marks[f.verdict][0] },
    { head: 'limit', cell: named },
    { head: 'value', right: true, cell: (f) => pairText(f)[0] },
    { head: 'limit at', right: true, cell: (f) => pairText(f)[1] },
    { head: 'headroom', colours: true, cell: (f) => bar(f.headroom_ratio) },
    { head: '', right: true, cell: (f) => (f.headroom_ratio === null ? '' : headroomText(f.headroom_ratio)) },
    ...(doubted ? [{ head: 'doubt', right: true, cell: doubt } as const] : []),
    ...(partly ? [{ head: 'seen', right: true, cell: seen } as const] : []),
    { head: 'where', cell: (f) => f.node ?? '' },
    { head: 'when', cell: (f) => (f.time_s === null ? '' : numberText(f.time_s, 's')) },
  ];
}

/** The id, with its column where that is not the normal one. */
export function named({ id, column }: Finding): string {
  return column === 'normal' ? id : `${id} (${column})`;
}

function isPartlySeen({ share_seen_ratio }: Finding): boolean {
  return share_seen_ratio !== null && share_seen_ratio < 1;
}

function seen(f: Finding): string {
  return isPartlySeen(f) ? numberText(f.share_seen_ratio!, 'ratio', 2) : '';
}

/** How far the finding moved at most; marked where it may as well have come out otherwise. */
function doubt(f: Finding): string {
  const mark = f.within_doubt ? 'within ' : '';
  if (f.doubt_ratio === null) return mark;
  return `${mark}${f.doubt_ratio < 5e-4 ? 'below 0.1 %' : `${(100 * f.doubt_ratio).toFixed(1)} %`}`;
}

/** Headroom drawn: full is all of the allowed deviation left, `!` marks one that is exceeded. */
export function bar(headroom: number | null): string {
  if (headroom === null) return ''.padEnd(barLength);
  if (headroom < 0) return '!'.padEnd(barLength, '·');
  const filled = Math.round(Math.min(1, headroom) * barLength);
  return '█'.repeat(filled).padEnd(barLength, '·');
}
