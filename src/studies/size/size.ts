/**
 * The smallest design that passes: every candidate is run through every situation (cases × corners ×
 * redundancy), the least that passes them all is found, and what binds and what would help is told.
 */
import { BadInput } from '../../base/problem.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { StudyContext, StudyHead } from '../context.ts';
import { filesOf, headOf } from '../context.ts';
import { type Situation, situationsOf } from '../cross.ts';
import { type Estimate, estimate } from '../estimate/estimate.ts';
import { replayOf } from '../replay.ts';
import { inRounds } from '../rounds.ts';
import { conditionsOf, type Letter, type States, statesOf, worstLetter } from '../states.ts';
import type { StudyFile } from '../study-file.ts';
import {
  bindingOf,
  decidedBy,
  notJudged,
  passes,
  type Trial,
  type TrialFinding,
  type TrialOutcome,
  tightest,
} from '../trial.ts';
import { dimensionOf, valuesOf } from '../values.ts';
import { type Candidate, limitOf, situationOf, textOf, trialsOf, trier } from './candidates.ts';
import { type Lever, leversOf, pullLevers } from './levers.ts';
import { nearestOf, tightestIn, worstOf } from './never-clears.ts';
import { leastPassing, type SearchResult } from './search.ts';
import { constraintTable, type TableRow } from './table.ts';

export interface Binding {
  readonly limit: string;
  readonly situation: string;
  /** Headroom at the result, or the nearest that a search without solution came; 0: it lies on its limit. */
  readonly headroom_ratio: number;
  /** The limit's own numbers there; null where no limit decides or it was not judged. */
  readonly numbers: Pick<TrialFinding, 'value' | 'limit' | 'unit' | 'headroom_ratio'> | null;
  /** Headroom one step below, where the limit is exceeded; null where nothing less was tried. */
  readonly below_ratio: number | null;
  readonly node: string | null;
  /** Why this one: it exceeded one step below, it is the tightest, or it never clears. */
  readonly why:
    | 'exceeded one step below'
    | 'tightest at the result'
    | 'tightest at the roomiest'
    | 'never clears';
  /** Value of what is varied that came nearest, where nothing passes. */
  readonly at: string | null;
}

export interface CandidateRow {
  readonly values: Readonly<Record<string, string>>;
  readonly passes: boolean;
  /** The worst of its situations. */
  readonly letter: Letter;
  readonly tightest_ratio: number;
  /** Tightest headroom in each situation, in the order of `situations`. */
  readonly headrooms_ratio: readonly number[];
  readonly binding: string;
  readonly situation: string;
  /** Limits that could not be judged in some situation: it passes with these conditions. */
  readonly not_judged: readonly string[];
  /** What its passes rest on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  readonly replay: string;
}

export interface SizeReport extends StudyHead {
  /** Path to value, or null where nothing passes. */
  readonly result: Readonly<Record<string, string>> | null;
  readonly binding: Binding | null;
  readonly table: readonly TableRow[];
  /** What is varied goes from less to more; places do not. */
  readonly ordered: boolean;
  readonly candidates: readonly CandidateRow[];
  /** How the trials of the candidates came out. */
  readonly states: States;
  /** With two paths: for each value of the first the least of the second that passes. */
  readonly front: readonly { readonly first: string; readonly second: string | null }[];
  readonly levers: readonly Lever[];
  /** Whether more never hurt, and what was done about it. */
  readonly monotone: { readonly holds: boolean; readonly whole: boolean; readonly note: string };
  readonly estimate: Estimate | null;
  /** The situations, each with the least candidate of the chosen row that passes it. */
  readonly situations: readonly { readonly name: string; readonly smallest: string | null }[];
  /** Simulations the answer rests on. */
  readonly runs: number;
}

/** Every candidate in every situation: what the parts of a search that is split run between them. */
export function sizeGrid(study: StudyFile, read: StudyContext['read']): readonly Trial[] {
  const situations = situationsOf(study);
  const axes = axesOf(study, situations, read);
  return rowsOf(axes).flatMap((row) =>
    axes.at(-1)!.values.flatMap((_, k) => trialsOf(situations, row.changesAt(k))),
  );
}

export async function size(
  study: StudyFile,
  { read, run }: StudyContext,
  options: { readonly all?: boolean } = {},
): Promise<SizeReport> {
  const situations = situationsOf(study);
  const axes = axesOf(study, situations, read);
  const inputs = situations.map((situation) => {
    return read(trialsOf([situation], rowsOf(axes)[0]!.changesAt(0))[0]!);
  });
  // The largest too: what cannot be is refused before anything runs, not where a search comes to it.
  for (const row of rowsOf(axes))
    read(trialsOf([situations[0]!], row.changesAt(axes.at(-1)!.values.length - 1))[0]!);
  if (study.words.get('least') === 'product' && axes.some(({ path }) => study.designs[path] !== undefined)) {
    throw new BadInput([
      {
        severity: 'error',
        path: 'least',
        found: 'the least product of designs',
        expected: 'two numbers to multiply',
        mend: 'leave out least: the first design that passes is taken',
      },
    ]);
  }
  const pulled = leversOf(study, read, situations);

  let runs = 0;
  const counted: typeof run = async (trials, enough) => {
    const outcomes = await run(trials, enough);
    runs += outcomes.length;
    return outcomes;
  };
  const last = axes.at(-1)!;
  const rows = rowsOf(axes);
  const firsts = rows.map(({ first }) => first);
  const searched = await inRounds(
    rows.map(({ changesAt, valuesAt }) => async (runRow) => {
      const seen = new Map<string, Candidate>();
      const tryThem = trier(situations, changesAt, runRow, seen);
      // Places have no less and more: all are tried, and the roomiest is taken.
      const found = await leastPassing(last.values.length, tryThem, last.ordered ? options : { all: true });
      const candidates = [...found.tried.keys()].map((k) => ({
        ...seen.get(textOf(changesAt(k)))!,
        values: valuesAt(k),
      }));
      return { found: last.ordered ? found : roomiest(found), candidates };
    }),
    counted,
  );
  const founds = searched.map(({ found }) => found);
  const candidates = searched.flatMap((row) => row.candidates);
  const chosen = choose(study, founds, firsts, last.values);
  const found = founds[chosen ?? 0]!;
  const result = chosen === null ? null : rows[chosen]!.valuesAt(found.least!);
  const best = chosen ?? nearestRow(founds);
  const pulledAt = last.ordered
    ? pullFrom(founds[best]!, last.values.length)
    : (founds[best]!.least ?? pullFrom(founds[best]!, last.values.length));
  const at = { values: rows[best]!.valuesAt(pulledAt), changes: rows[best]!.changesAt(pulledAt) };
  const levers = await pullLevers(pulled, situations, at.changes, wordsOf(at.values), counted);
  const cases = new Map(
    study.cases.length === 0
      ? [['', situations[0]!] as const]
      : study.cases.map(({ name }) => [name, situations.find((s) => s.name.startsWith(name))!] as const),
  );
  return {
    ...headOf(study, [
      ...filesOf([study.inputs, ...inputs.map(({ scenario }) => scenario.inputs)]),
      ...study.changes.map((change) => ({ change })),
    ]),
    result,
    binding: bindingAt(founds[best]!, situations, last.values, chosen !== null, last.ordered, (k) =>
      candidates.find(({ values }) => wordsOf(values) === wordsOf(rows[best]!.valuesAt(k))),
    ),
    table: constraintTable(founds[best]!, last.values),
    candidates: candidates.map((candidate) => candidateRow(candidate, situations)),
    states: statesOf(candidates.flatMap(({ outcomes }) => outcomes)),
    front:
      axes.length === 2
        ? founds.map(({ least }, k) => ({
            first: firsts[k]!,
            second: least === null ? null : last.values[least]!,
          }))
        : [],
    levers,
    ordered: last.ordered,
    monotone: last.ordered
      ? monotoneNote(founds)
      : {
          holds: true,
          whole: true,
          note: 'every candidate was run, and the one with most headroom is taken',
        },
    estimate: estimate(
      [...cases].map(([name, { scenario, before }]) => ({ name, read: read({ scenario, changes: before }) })),
    ),
    situations: situations.map(({ name }) => ({
      name: name === '' ? 'as it is' : name,
      smallest: leastIn(name, founds[best]!, last.values),
    })),
    runs,
  };
}

type ValuesByPath = Readonly<Record<string, string>>;

/** A candidate with what is varied as it is called in a report. */
interface Shown extends Candidate {
  readonly values: ValuesByPath;
}

function wordsOf(values: ValuesByPath): string {
  return Object.entries(values)
    .map(([path, value]) => `${path} = ${value}`)
    .join(', ');
}

interface AxisRow {
  /** Value of the first of two paths; null where one is varied. */
  readonly first: string | null;
  /** Changes of the candidate at a value of the last path. */
  readonly changesAt: (k: number) => readonly Change[];
  readonly valuesAt: (k: number) => ValuesByPath;
}

/** One row of candidates for each value of the first of two paths. */
function rowsOf(axes: readonly SizeAxis[]): readonly AxisRow[] {
  const last = axes.at(-1)!;
  const first = axes.length === 2 ? axes[0]! : null;
  return (first?.values ?? [null]).map((value, j) => ({
    first: value,
    changesAt: (k) => [...(first?.changes[j] ?? []), ...last.changes[k]!],
    valuesAt: (k) => ({
      ...(first === null ? {} : { [first.path]: value! }),
      [last.path]: last.values[k]!,
    }),
  }));
}

interface SizeAxis {
  readonly path: string;
  /** Values are numbers, from less to more, or designs, least first; places have no order. */
  readonly ordered: boolean;
  readonly values: readonly string[];
  /** What each value changes. */
  readonly changes: readonly (readonly Change[])[];
}

function axesOf(
  study: StudyFile,
  situations: readonly Situation[],
  read: StudyContext['read'],
): readonly SizeAxis[] {
  const { scenario, before } = situations[0]!;
  const { cells } = read({ scenario, changes: before });
  return study.vary.map(([path, text]) => {
    const designs = study.designs[path];
    if (designs !== undefined) {
      return {
        path,
        ordered: true,
        values: designs.map(({ name }) => name),
        changes: designs.map(({ changes }) => changes),
      };
    }
    const dimension = dimensionOf(path, cells);
    const values = valuesOf(path, text, dimension);
    return {
      path,
      ordered: dimension !== null,
      values,
      changes: values.map((value) => [{ path, value }]),
    };
  });
}

/** Row of the answer: the first that has one, or the least product of both values. Null where nothing passes. */
function choose(
  study: StudyFile,
  founds: readonly SearchResult[],
  firsts: readonly (string | null)[],
  values: readonly string[],
): number | null {
  const able = founds.flatMap(({ least }, k) => (least === null ? [] : [{ k, least }]));
  if (able.length === 0) return null;
  if (study.words.get('least') !== 'product') return able[0]!.k;
  const product = ({ k, least }: { k: number; least: number }): number =>
    Number.parseFloat(firsts[k] ?? '1') * Number.parseFloat(values[least]!);
  return able.reduce((a, b) => (product(b) < product(a) ? b : a)).k;
}

/** Least candidate from which on no limit is broken in a situation. */
function leastIn(name: string, { tried }: SearchResult, values: readonly string[]): string | null {
  let from: number | null = null;
  for (const [k, { headrooms }] of [...tried].reverse()) {
    if ([...headrooms].some(([key, headroom]) => situationOf(key) === name && headroom < 0)) break;
    from = k;
  }
  return from === null ? null : values[from]!;
}

/** With what passes and leaves most headroom in the place of the least. */
function roomiest(found: SearchResult): SearchResult {
  const able = [...found.tried].filter(([, { passes: good }]) => good);
  if (able.length === 0) return { ...found, least: null };
  const [least] = able.reduce((a, b) => (worstOf(b[1]) > worstOf(a[1]) ? b : a));
  return { ...found, least, reversed: [] };
}

/** Among rows without an answer the one whose best candidate came nearest. */
function nearestRow(founds: readonly SearchResult[]): number {
  const best = founds.map(({ tried }) => Math.max(...[...tried.values()].map(worstOf)));
  return best.indexOf(Math.max(...best));
}

/** Where levers are pulled: one step below the answer, or where a search without one came nearest. */
function pullFrom({ least, tried }: SearchResult, count: number): number {
  if (least !== null) return Math.max(0, least - 1);
  const rows = [...tried];
  const best = Math.max(...rows.map(([, one]) => worstOf(one)));
  return rows.find(([, one]) => worstOf(one) === best)?.[0] ?? count - 1;
}

function bindingAt(
  found: SearchResult,
  situations: readonly Situation[],
  values: readonly string[],
  solved: boolean,
  ordered: boolean,
  candidateAt: (index: number) => Candidate | undefined,
): Binding | null {
  const here = solved ? found.tried.get(found.least!) : undefined;
  const below = solved && ordered && found.least! > 0 ? found.tried.get(found.least! - 1) : undefined;
  let key: string;
  let headroom: number;
  let why: Binding['why'];
  let nearest: string | null = null;
  let at = found.least ?? 0;
  if (here !== undefined) {
    why = ordered ? 'tightest at the result' : 'tightest at the roomiest';
    if (below !== undefined) why = 'exceeded one step below';
    [key] = below === undefined ? tightestIn(here) : tightestIn(below);
    headroom = here.headrooms.get(key) ?? worstOf(here);
  } else {
    const near = nearestOf(found);
    [key, headroom, why, nearest] = [near.key, near.headroom, 'never clears', values[near.at]!];
    at = near.at;
  }
  const limit = limitOf(key);
  const situation = situationOf(key);
  const k = situations.findIndex(({ name }) => name === situation);
  const finding = candidateAt(at)?.outcomes[k]?.findings.find(({ id }) => id === limit);
  const below_ratio = below?.headrooms.get(key) ?? null;
  const numbers = finding === undefined ? null : numbersAt(finding);
  return {
    limit,
    situation,
    headroom_ratio: headroom,
    numbers,
    below_ratio,
    node: finding?.node ?? null,
    why,
    at: nearest,
  };
}

function numbersAt({ value, limit, unit, headroom_ratio }: TrialFinding): Binding['numbers'] {
  return { value, limit, unit, headroom_ratio };
}

function candidateRow({ values, changes, outcomes }: Shown, situations: readonly Situation[]): CandidateRow {
  const worst = worstIndex(outcomes);
  const outcome = outcomes[worst]!;
  return {
    values,
    passes: outcomes.every(passes),
    letter: worstLetter(outcomes),
    tightest_ratio: tightest(outcome),
    headrooms_ratio: outcomes.map(tightest),
    binding: bindingOf(outcome)?.id ?? decidedBy(outcome).replaceAll('_', ' '),
    situation: situations[worst]!.name,
    not_judged: notJudged(outcomes),
    conditions: [...new Set(outcomes.flatMap(conditionsOf))],
    warnings: [...new Set(outcomes.flatMap(({ warnings }) => warnings))],
    replay: replayOf(trialsOf([situations[worst]!], changes)[0]!),
  };
}

export function worstIndex(outcomes: readonly TrialOutcome[]): number {
  return outcomes.reduce(
    (worst, outcome, k) => (tightest(outcome) < tightest(outcomes[worst]!) ? k : worst),
    0,
  );
}

function monotoneNote(founds: readonly SearchResult[]): SizeReport['monotone'] {
  const reversed = [...new Set(founds.flatMap((found) => found.reversed))];
  const whole = founds.every((found) => found.whole);
  const tried = whole
    ? 'every candidate was run'
    : 'checked on the candidates that were run, between which the search halved';
  return reversed.length === 0
    ? { holds: true, whole, note: `no limit passes at less and fails at more: ${tried}` }
    : {
        holds: false,
        whole,
        note: `more is not always better: ${reversed.join('; ')} ${reversed.length === 1 ? 'passes' : 'pass'} at less and ${reversed.length === 1 ? 'fails' : 'fail'} at more; ${tried}`,
      };
}
