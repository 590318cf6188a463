/** The answer to a specification, for a terminal. */
import type { RequirementState, Statement, StatementLine } from '../../analysis/statement/line.ts';
import { inOwnUnit, saidOf, statementHead, stateWords } from '../../analysis/statement/words.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { alignColumns, wrap } from './columns.ts';

/** Lines that a run shows of it beside its verdict. */
const shownInRun = 6;

const order: readonly RequirementState[] = ['not_met', 'open', 'met_with_conditions', 'met'];

/** What a run shows at its end: what is not met and what is open first, and where all of it is. */
export function statementInShort(statement: Statement, width: number, out: string | undefined): string {
  const ranked = order.flatMap((state) => statement.lines.filter((line) => line.state === state));
  const rest = statement.lines.length - shownInRun;
  const all = out === undefined ? 'with --out, then buswake review' : `buswake review ${quotedPlace(out)}`;
  return [
    ...wrap(statementHead(statement), width, '  '),
    ...table(ranked.slice(0, shownInRun), width, 1),
    ...(rest > 0 ? [`  and ${rest} more; line by line: ${all}`] : []),
  ].join('\n');
}

/** Line by line, in the order of the specification. */
export function statementText(statement: Statement, width: number): string {
  const { conditions, lines, runs } = statement;
  return [
    ...wrap(`${statementHead(statement)}.`, width, '  '),
    ...wrap(`Shown by ${runs.join(', ')}.`, width, '  '),
    ...table(lines, width, Number.POSITIVE_INFINITY),
    ...(conditions.length === 0 ? [] : ['What is met rests on:']),
    ...conditions.flatMap((condition) => wrap(`  ${condition}`, width, '    ')),
  ].join('\n');
}

/** A row each, and below it why or under which conditions, in `saidLines` lines at most. */
function table(lines: readonly StatementLine[], width: number, saidLines: number): string[] {
  const head = ['clause', 'state', 'bound', 'found', 'margin', 'shown in'];
  const rows = alignColumns([head, ...lines.map(cellsOf)], new Set([3, 4]));
  return rows.flatMap((row, k) => {
    const text = `  ${row.join('  ')}`.trimEnd();
    if (k === 0) return [text];
    const line = lines[k - 1]!;
    const said = [line.requirement.words, saidOf(line)].filter((words) => words !== '').join(': ');
    const under = wrap(`      ${said}`, width, '      ');
    return [
      text,
      ...under
        .slice(0, saidLines)
        .map((words, at) => (at + 1 < under.length && at + 1 === saidLines ? `${words} …` : words)),
    ];
  });
}

function cellsOf(line: StatementLine): string[] {
  const { requirement, state, worst } = line;
  const place = [
    worst?.run,
    worst?.node,
    worst == null || worst.time_s === null ? null : `${Number(worst.time_s.toPrecision(4))} s`,
  ];
  return [
    requirement.clause,
    stateWords[state],
    requirement.bound,
    inOwnUnit(line, worst?.value ?? null),
    inOwnUnit(line, worst?.margin ?? null),
    place.filter((word) => word != null).join(', '),
  ];
}
