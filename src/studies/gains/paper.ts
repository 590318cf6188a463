/** The report of a gains map: what is kept, printed and shown. */
import type { Verdict } from '../../analysis/judge/report.ts';
import type { Status } from '../../engine/result.ts';
import type { Change, InputFile } from '../../scenario/scenario.ts';
import { headOf, type StudyHead } from '../head.ts';
import { csvTable } from '../tables.ts';
import { type Letter, restsOn, letterWords as verdictWords } from '../trials/states.ts';
import type { Acceptance } from './accept.ts';
import type { GainsMap } from './map.ts';
import type { Requirement } from './requirements.ts';

/** The chosen point run in time, limits, quantum, dead band and modes on. */
export interface Confirmation {
  readonly status: Status;
  readonly verdict: Verdict;
  readonly letter: Letter;
  readonly summary: string;
  /** What a pass rests on, and what the reader of the files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  readonly binding: string | null;
  readonly replay: string;
}

export interface GainsReport extends StudyHead, GainsMap {
  readonly load_W: number;
  readonly acceptance: Acceptance;
  readonly confirmation: Confirmation | null;
  readonly requirements: readonly Requirement[];
  readonly remarks: readonly string[];
}

export function gainsReport(
  scenario: {
    readonly id: string;
    readonly title: string;
    readonly inputs: readonly InputFile[];
    readonly changes: readonly Change[];
  },
  map: GainsMap,
  parts: Pick<GainsReport, 'load_W' | 'acceptance' | 'confirmation' | 'requirements'>,
): GainsReport {
  const [a, b] = map.axes;
  return {
    ...headOf(
      {
        id: scenario.id,
        kind: 'gains',
        title: `${a.path} against ${b.path}: ${scenario.title}`,
        about: `linear, about rest at ${(parts.load_W / 1e3).toFixed(1)} kW`,
      },
      [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
    ),
    ...map,
    ...parts,
    remarks: [
      ...(map.recommended?.doubts ?? []),
      ...reasonsOf(map),
      'Linear about one settled point: dead band and quantum of the share loop are zero in it, save for the steady error, which has them.',
      'Loops slower than 0.3 rad/s (charge of the trays, leakage of the trims) are not part of a map; `response` has them.',
    ],
  };
}

/** Why cells are without numbers, each reason once with how many. */
function reasonsOf({ cells }: GainsMap): string[] {
  const counts = new Map<string, number>();
  for (const { reason } of cells) if (reason !== null) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  const most = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 3);
  return most.map(([reason, n]) => `Without numbers, ${n} ${n === 1 ? 'point' : 'points'}: ${reason}.`);
}

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

/** What keeps a cell from being acceptable, as one letter; a dot where nothing does. */
export function letterOf({
  stable,
  lacks,
  reason,
}: {
  stable: boolean;
  lacks: string | null;
  reason: string | null;
}): string {
  if (reason !== null) return '?';
  if (!stable) return 'U';
  if (lacks === null) return '·';
  if (lacks.startsWith('damping')) return 'd';
  if (lacks.startsWith('nearer')) return 'm';
  if (lacks.startsWith('settles')) return 's';
  if (lacks.startsWith('overshoots')) return 'o';
  return 'e';
}

export const letterWords =
  '· acceptable, U unstable, d damping, m margin, s settling, o overshoot, e steady error, ? no numbers';

/** The map as letters: the first axis down, the second across. */
export function mapLetters({ axes, cells, recommended }: GainsReport): string[] {
  const [a, b] = axes;
  const width = Math.max(...a.values.map((value) => value.length));
  const rows = a.values.map((value, x) => {
    const letters = b.values.map((_, y) => {
      const chosen = recommended !== null && recommended.place[0] === x && recommended.place[1] === y;
      return chosen ? '◎' : letterOf(cells[x * b.values.length + y]!);
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
    ...(recommended === null
      ? []
      : [
          '| distance to the edge | value | of the chosen |',
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
