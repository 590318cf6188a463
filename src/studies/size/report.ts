/** What a sizing found: the answer, what binds, what each limit and situation requires, what would help next. */
import type { Estimate } from '../estimate/estimate.ts';
import { filesOf, headOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import { wordsOf } from '../search/axes.ts';
import { type CandidateRow, candidateRow } from '../search/candidate-row.ts';
import { type States, statesOf } from '../trials/states.ts';
import { type Binding, bindingAt } from './binding.ts';
import { type Answer, alikeWith, leastIn } from './choose.ts';
import type { Lever } from './levers.ts';
import { type Monotone, monotoneNote } from './monotone.ts';
import type { SizePlan } from './plan.ts';
import type { SearchedRow } from './search-row.ts';
import { constraintTable, type TableRow } from './table.ts';

export interface SizeReport extends StudyHead {
  readonly limit_titles: LimitTitles;
  /** Path to value, or null where nothing passes. */
  readonly result: Readonly<Record<string, string>> | null;
  readonly binding: Binding | null;
  readonly table: readonly TableRow[];
  /** What is varied goes from less to more; places do not. */
  readonly ordered: boolean;
  /** Of places: others that are as roomy as the result. */
  readonly alike: readonly string[];
  readonly candidates: readonly CandidateRow[];
  /** How the trials of the candidates came out. */
  readonly states: States;
  /** With two paths: for each value of the first the least of the second that passes. */
  readonly front: readonly { readonly first: string; readonly second: string | null }[];
  readonly levers: readonly Lever[];
  /** Whether more never hurt, and what was done about it. */
  readonly monotone: Monotone;
  readonly estimate: Estimate | null;
  /** The situations, each with the least candidate of the chosen row that passes it. */
  readonly situations: readonly { readonly name: string; readonly smallest: string | null }[];
  /** Simulations the answer rests on. */
  readonly runs: number;
}

/** `searched`: what was tried along each row; `runs`: all simulations, levers included. */
export function sizeReport(
  { study, reads, rows, last, situations, estimate, identity }: SizePlan,
  searched: readonly SearchedRow[],
  {
    answer,
    levers,
    runs,
  }: { readonly answer: Answer; readonly levers: readonly Lever[]; readonly runs: number },
): SizeReport {
  const { found, result, row } = answer;
  const founds = searched.map((one) => one.found);
  const candidates = searched.flatMap((one) => one.candidates);
  const candidateAt = (k: number) =>
    candidates.find(({ values }) => wordsOf(values) === wordsOf(rows[row]!.values[k]!));
  return {
    ...headOf(
      study,
      [
        ...filesOf([study.inputs, ...reads.map(({ scenario }) => scenario.inputs), identity.inputs]),
        ...study.changes.map((change) => ({ change })),
      ],
      reads.map(({ scenario }) => scenario.nominal_V),
    ),
    limit_titles: limitTitles(reads.map(({ scenario }) => scenario)),
    result,
    binding: bindingAt(found, situations, last.values, result !== null, last.ordered, candidateAt),
    table: constraintTable(found, last.values),
    candidates: candidates.map((candidate) => candidateRow(candidate, situations)),
    states: statesOf(candidates.flatMap(({ outcomes }) => outcomes)),
    front: founds.flatMap(({ least }, k) => {
      const { first } = rows[k]!;
      return first === null ? [] : [{ first, second: least === null ? null : last.values[least]! }];
    }),
    levers,
    ordered: last.ordered,
    alike: result === null ? [] : alikeWith(found, last),
    monotone: monotoneNote(founds, last.ordered),
    estimate,
    situations: situations.map(({ name }) => ({
      name: name === '' ? 'as it is' : name,
      smallest: leastIn(name, found, last.values),
    })),
    runs,
  };
}
