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

/** The verdict of a cell; first that it collapsed, which other limits follow from. */
export function cellWords({ collapse, summary }: Cell): string {
  return collapse === null ? summary : `Collapsed: ${collapse}. ${summary}`;
}

export function placeOf({ fault, redundancy, corner }: Cell): string {
  return [fault, redundancy, corner].filter((word) => word !== 'as it is').join(', ');
}

/** Letters that occur, each with its word. */
export function legendOf({ cells }: MatrixReport): string {
  const seen = new Set(cells.map(({ letter }) => letter));
  return [...seen].map((letter) => `${letter} ${letterWords[letter]}`).join(', ');
}

/** What the cells do not say of AC ripple, '' where they say it. */
export function rippleNote({ ripple_not_after, faults }: MatrixReport): string {
  const n = ripple_not_after.length;
  if (n === 0) return '';
  const which = n === faults.length - 1 && n > 3 ? 'every fault' : ripple_not_after.join('; ');
  return `Ripple, tones and range of AC power are judged 10 s clear of every event and walk-in. The run ends too early for that after: ${which}. There they are judged before the fault only.`;
}

/** One character a corner, and the tightest cell of each row: what fits a terminal. */
export function shortHead({ corners }: MatrixReport): string[] {
  return ['fault', corners.map((_, k) => (k + 1) % 10).join(' '), 'tightest', 'in'];
}

export function shortRows({ faults, redundancy, corners, cells }: MatrixReport): Row[] {
  return faults.flatMap((fault, f) =>
    redundancy.map((spare, r) => {
      const first = (f * redundancy.length + r) * corners.length;
      const row = cells.slice(first, first + corners.length);
      const tight = row.reduce((a, b) => (b.headroom_ratio < a.headroom_ratio ? b : a));
      return [
        redundancy.length === 1 ? fault : `${fault}, ${spare}`,
        row.map(({ letter }) => letter).join(' '),
        `${tight.binding} ${formatPercent(tight.headroom_ratio, 2)}`,
        tight.corner,
      ];
    }),
  );
}

/** The corners behind the numbers of the short table. */
export function cornerWords({ corners }: MatrixReport): string {
  return corners.map((name, k) => `${k + 1} ${name}`).join(', ');
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
    ...(rippleNote(report) === '' ? [] : [rippleNote(report)]),
    markdownTable(gridHead(report), gridRows(report)),
    ...(report.fault_words.every((words) => words === '')
      ? []
      : [
          '## What the faults are',
          report.faults
            .flatMap((fault, k) =>
              report.fault_words[k] === '' ? [] : [`- ${fault}: ${report.fault_words[k]}`],
            )
            .join('\n'),
        ]),
    '## To repeat a cell',
    ...cells.map((cell) => `- ${cell.letter} ${placeOf(cell)}: ${cellWords(cell)}\n  \`${cell.replay}\``),
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
