/** A gains map as Markdown, as CSV and as letters. */
import { csvTable } from '../tables.ts';
import { restsOn, letterWords as verdictWords } from '../trials/states.ts';
import { acceptanceLines, letterOf, letterWords } from './accept.ts';
import type { GainsReport } from './report.ts';

export function gainsSentence({ recommended, cells, confirmation }: GainsReport): string {
  const stable = cells.filter((cell) => cell.stable).length;
  const good = cells.filter((cell) => cell.lacks === null).length;
  const found = `${stable} of ${cells.length} points are stable, ${good} acceptable`;
  if (recommended === null) return `${found}; none can be recommended`;
  const chosen = recommended.changes.map(({ path, value }) => `${path} ${value}`).join(', ');
  const proof =
    confirmation === null ? '' : `; in time with limits and modes on it ${verdictWords[confirmation.letter]}`;
  const doubt = recommended.doubts.length > 0 ? ', with doubts: see below' : '';
  return `${found}; recommended ${chosen}${doubt}${proof}`;
}

/** The map as letters: the first axis down, the second across. */
export function mapLetters({ axes, cells, recommended, acceptance }: GainsReport): string[] {
  const [a, b] = axes;
  const width = Math.max(...a.values.map((value) => value.length));
  const rows = a.values.map((value, x) => {
    const letters = b.values.map((_, y) => {
      const chosen = recommended !== null && recommended.place[0] === x && recommended.place[1] === y;
      return chosen ? '◎' : letterOf(cells[x * b.values.length + y]!, acceptance);
    });
    return `${value.padStart(width)}  ${letters.join(' ')}`;
  });
  const foot = `${b.path}: ${b.values[0]} (left) to ${b.values.at(-1)} (right)`;
  return [
    `${a.path} down, ${b.path} across; ◎ recommended`,
    ...rows,
    `${' '.repeat(width)}  ${foot}`,
    letterWords,
  ];
}

export function gainsCsv({ axes, cells }: GainsReport): string {
  const [a, b] = axes;
  const keys = [
    'stable',
    'damping_ratio',
    'damping_Hz',
    'damping_fast_ratio',
    'damping_fast_Hz',
    'clearance_ratio',
    'settling_s',
    'overshoot_ratio',
    'steady_error_ratio',
    'growth_per_s',
  ] as const;
  return csvTable(
    [a.path, b.path, ...keys, 'lacks'],
    cells.map((cell) => [a.values[cell.x]!, b.values[cell.y]!, ...keys.map((key) => cell[key]), cell.lacks]),
  );
}

export function gainsMarkdown(report: GainsReport): string {
  const { recommended, requirements, confirmation } = report;
  return [
    `# ${report.title}`,
    '',
    `${gainsSentence(report)}.`,
    '',
    '```',
    ...mapLetters(report),
    '```',
    '',
    'Acceptable is:',
    '',
    ...acceptanceLines(report.acceptance).map((line) => `- ${line}`),
    '',
    ...(recommended === null
      ? []
      : [
          '| distance to the edge | value | relative to the chosen |',
          '|---|---|---|',
          ...recommended.edges.map(
            ({ path, side, text, beyond, factor }) =>
              `| ${path}, ${side} | ${text}${beyond === null ? ' (the map ends)' : `; ${beyond} is not`} | ${factor === null ? '–' : `× ${factor.toPrecision(3)}`} |`,
          ),
          '',
        ]),
    ...(confirmation === null
      ? []
      : [`In time: ${confirmation.summary}`, ...restsOn(confirmation), '', `\`${confirmation.replay}\``, '']),
    '| requirement | | why | acceptance test |',
    '|---|---|---|---|',
    ...requirements.map(({ path, text, why, test }) => `| ${path} | ${text} | ${why} | ${test} |`),
    '',
    ...report.remarks,
    '',
  ].join('\n');
}
