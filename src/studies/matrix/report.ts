/** A matrix as Markdown and as CSV. */
import { formatPercent } from '../../quantity.ts';
import { csvTable, markdownTable, type Row } from '../tables.ts';
import { letterWords } from '../trial.ts';
import type { Cell, MatrixReport } from './matrix.ts';

export function matrixSentence({ cells, passed, runs }: MatrixReport): string {
  if (passed === runs) {
    const tight = cells.reduce((a, b) => (b.headroom_ratio < a.headroom_ratio ? b : a));
    return `All ${runs} pass; tightest is ${tight.binding} with ${formatPercent(tight.headroom_ratio, 2)} left: ${placeOf(tight)}.`;
  }
  const worst = cells.reduce((a, b) => (b.headroom_ratio < a.headroom_ratio ? b : a));
  return `${passed} of ${runs} pass; worst is ${worst.binding}: ${placeOf(worst)}.`;
}

export function placeOf({ fault, redundancy, corner }: Cell): string {
  return [fault, redundancy, corner].filter((word) => word !== 'as it is').join(', ');
}

/** Letters that occur, each with its word. */
export function legendOf({ cells }: MatrixReport): string {
  const seen = new Set(cells.map(({ letter }) => letter));
  return [...seen].map((letter) => `${letter} ${letterWords[letter]}`).join(', ');
}

/** One row per fault and redundancy, one column per corner: letter and binding limit. */
export function gridHead({ corners }: MatrixReport): string[] {
  return ['fault', ...corners];
}

export function gridRows({ faults, redundancy, corners, cells }: MatrixReport): Row[] {
  return faults.flatMap((fault, f) =>
    redundancy.map((spare, r) => [
      redundancy.length === 1 ? fault : `${fault}, ${spare}`,
      ...corners.map((_, c) => {
        const { letter, binding, headroom_ratio } = cells[(f * redundancy.length + r) * corners.length + c]!;
        return `${letter} ${binding} ${formatPercent(headroom_ratio, 2)}`;
      }),
    ]),
  );
}

export function matrixMarkdown(report: MatrixReport): string {
  const { title, study, about, cells } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${matrixSentence(report)}**`,
    `Each cell: the verdict, the limit that binds, its headroom. ${legendOf(report)}.`,
    markdownTable(gridHead(report), gridRows(report)),
    '## To repeat a cell',
    ...cells.map((cell) => `- ${cell.letter} ${placeOf(cell)}: ${cell.summary}\n  \`${cell.replay}\``),
    '',
  ].join('\n\n');
}

export function matrixCsv({ cells }: MatrixReport): string {
  return csvTable(
    ['fault', 'redundancy', 'corner', 'letter', 'verdict', 'binding', 'headroom_ratio', 'node', 'replay'],
    cells.map(({ fault, redundancy, corner, letter, verdict, binding, headroom_ratio, node, replay }) => [
      fault,
      redundancy,
      corner,
      letter,
      verdict,
      binding,
      headroom_ratio,
      node,
      replay,
    ]),
  );
}
