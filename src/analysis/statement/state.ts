/** Statements from what runs show: of one run, or of several on the same specification together. */
import type { LimitColumn } from '../../scenario/sections/limit-differences.ts';
import type { BasisEntry } from '../basis.ts';
import type { AskedRequirement, ShownIn, Statement, StatementLine } from './line.ts';
import { type RunGrounds, shownIn } from './shown-in.ts';

/** The statement of one run, with what its findings show now. */
export function stated(statement: Statement, grounds: RunGrounds): Statement {
  const run = statement.runs.join(', ');
  return concludedFrom(
    { ...statement, conditions: conditionsOf(grounds.basis) },
    statement.lines.map(({ requirement }) => shownIn(requirement, run, grounds)),
  );
}

/**
 * Several runs together: each requirement by the worst that any of them shows. They are of one specification. `apart`: what
 * the runs differ in beside their scenarios, which all that is met then rests on.
 */
export function together(statements: readonly Statement[], apart: readonly string[] = []): Statement {
  const [first] = statements;
  if (first === undefined) throw new RangeError('no statement to put together');
  if (statements.length === 1) return first;
  return concludedFrom(
    {
      ...first,
      runs: statements.flatMap(({ runs }) => runs),
      carries: statements.some(({ carries }) => carries),
      conditions: [
        ...apart.map((what) => `the runs are not of one cabinet: ${what}`),
        ...statements.flatMap(({ runs, conditions }) =>
          conditions.map((condition) => `${runs.join(', ')}: ${condition}`),
        ),
      ],
    },
    first.lines.map((_, k) => statements.flatMap(({ lines }) => lines[k]!.shown)),
  );
}

/** Who waives and which limits were changed stands with the requirement that it is about. */
function conditionsOf(basis: readonly BasisEntry[]): string[] {
  return basis
    .filter(({ conditions, kind }) => conditions && kind !== 'waived' && kind !== 'limits')
    .map(({ what }) => what);
}

function concludedFrom(statement: Statement, shown: readonly (readonly ShownIn[])[]): Statement {
  const lines = statement.lines.map(({ requirement }, k) => lineOf(requirement, shown[k]!, statement));
  return { ...statement, lines };
}

function lineOf(
  requirement: AskedRequirement,
  shown: readonly ShownIn[],
  { carries, conditions: common }: Statement,
): StatementLine {
  const columns = (requirement.judged?.columns ?? []).filter((column) => carries || column !== 'carry');
  const of = (column: LimitColumn, state: ShownIn['state']): boolean =>
    shown.some((one) => one.column === column && one.state === state);
  const not_shown = columns.filter(
    (column) => !of(column, 'met') && !of(column, 'not_met') && !of(column, 'open'),
  );
  const isMet = columns.length > 0 && columns.every((column) => of(column, 'met'));
  const fails = shown.filter(({ state }) => state === 'not_met');
  const left = shown.filter(({ state }) => state === 'open');
  const conditions = [
    ...shown.filter(({ state }) => state === 'met').flatMap((one) => one.conditions),
    ...left.map(({ run, because }) => `not shown in ${run}: ${because ?? 'inconclusive'}`),
  ];
  const worst =
    worstOf(fails) ?? worstOf(isMet ? shown.filter(({ state }) => state === 'met') : left) ?? worstOf(shown);
  const line = { requirement, worst, shown, not_shown };
  if (fails.length > 0)
    return { ...line, state: 'not_met', conditions: [], because: worst?.because ?? 'beyond the bound' };
  if (isMet) {
    const state = conditions.length + common.length > 0 ? 'met_with_conditions' : 'met';
    return { ...line, state, conditions: [...new Set(conditions)], because: null };
  }
  return {
    ...line,
    state: 'open',
    conditions: [],
    because: whyOpen(requirement, { shown, left, not_shown }),
  };
}

const showing: Readonly<Record<LimitColumn, string>> = {
  normal: 'a run without an outage',
  degraded: 'a run that states an outage and has one',
  carry: 'a run in which batteries carry the bus',
};

function whyOpen(
  { judged, shown_by }: AskedRequirement,
  {
    shown,
    left,
    not_shown,
  }: {
    readonly shown: readonly ShownIn[];
    readonly left: readonly ShownIn[];
    readonly not_shown: readonly LimitColumn[];
  },
): string {
  if (judged === null) return shown_by;
  const idle = shown.filter(({ state, column }) => state === 'not_arisen' && not_shown.includes(column));
  const met = new Set(shown.filter(({ state }) => state === 'met').map(({ column }) => column));
  return [
    ...(met.size === 0 ? [] : [`met in ${[...met].join(' and ')} alone`]),
    ...left.map(({ because }) => because ?? 'inconclusive'),
    ...idle.map(({ because }) => `does not arise: ${because ?? 'nothing of the kind happened'}`),
    ...not_shown
      .filter((column) => !idle.some((one) => one.column === column))
      .map((column) => `${column} not shown: ${showing[column]} shows it`),
  ].join('; ');
}

/** The one with the smallest margin; one without a number comes last. */
function worstOf(shown: readonly ShownIn[]): ShownIn | null {
  const margin = (one: ShownIn): number => one.margin ?? Number.POSITIVE_INFINITY;
  return shown.reduce<ShownIn | null>(
    (worst, one) => (worst === null || margin(one) < margin(worst) ? one : worst),
    null,
  );
}
