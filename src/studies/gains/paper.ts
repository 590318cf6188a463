/** A gains map as Markdown, as CSV and as letters. */
import { digits } from '../../base/digits.ts';
import { csvTable } from '../tables.ts';
import { restsOn, letterWords as verdictWords } from '../trials/states.ts';
import { acceptanceLines, criteria, letterOf, letterWords, valueText } from './accept.ts';
import type { GainsReport } from './report.ts';

export function gainsSentence({ recommended, cells, confirmation, circumstances }: GainsReport): string {
  const stable = cells.filter((cell) => cell.stable).length;
  const good = cells.filter((cell) => cell.lacks === null).length;
  const narrow = cells.filter((cell) => cell.fails_in !== null).length;
  const found =
    circumstances === 0
      ? `${stable} of ${cells.length} points are stable, ${good} acceptable`
      : `${stable} of ${cells.length} points are stable, ${good + narrow} acceptable, ${good} in all ${circumstances} circumstances`;
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

/** What the circumstances are, and what they make of the map and of the point chosen; none without them. */
export function circumstanceLines({ tolerances, over, circumstances, worst, cells }: GainsReport): string[] {
  if (circumstances === 0) return [];
  return [
    ...(over === null
      ? []
      : [
          `at ${over.loads.join(', ')} each: ${over.states.join('; ')}; as built with parts that are ${over.parts.join('; ')}`,
          ...over.not_asked.map(({ words, why }) => `not asked: ${words}: ${why}`),
        ]),
    ...(tolerances === null
      ? []
      : [
          `${tolerances.samples} samples of ${tolerances.drawn.length} tolerances that the models state, seed ${tolerances.seed}`,
        ]),
    ...(worst.length === 0
      ? ['no point is acceptable in all of them', ...failingLines(cells)]
      : worst.flatMap(({ criterion, nominal, value, circumstance }) => {
          if (value === null) return [];
          const now = `${criteria[criterion].words}: ${valueText(criterion, value)}`;
          return circumstance === 'as it is'
            ? `${now}, and no worse anywhere`
            : `${now} (${circumstance}), ${valueText(criterion, nominal)} as it is`;
        })),
  ];
}

/** Why points fail in a circumstance, the commonest three reasons. */
function failingLines(cells: GainsReport['cells']): string[] {
  const counts = new Map<string, number>();
  for (const { fails_in, lacks } of cells)
    if (fails_in !== null && lacks !== null) counts.set(lacks, (counts.get(lacks) ?? 0) + 1);
  const most = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 3);
  return most.map(([words, count]) => `${words}: ${count} ${count === 1 ? 'point' : 'points'}`);
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
    [a.path, b.path, ...keys, 'lacks', 'fails_in'],
    cells.map((cell) => [
      a.values[cell.x]!,
      b.values[cell.y]!,
      ...keys.map((key) => cell[key]),
      cell.lacks,
      cell.fails_in,
    ]),
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
    ...circumstanceLines(report).flatMap((line) => [line, '']),
    ...(recommended === null
      ? []
      : [
          '| distance to the edge | value | relative to the chosen |',
          '|---|---|---|',
          ...recommended.edges.map(
            ({ path, side, text, beyond, factor }) =>
              `| ${path}, ${side} | ${text}${beyond === null ? ' (the map ends)' : `; ${beyond} is not`} | ${factor === null ? '–' : `× ${digits(factor)}`} |`,
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
