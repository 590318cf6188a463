/** What a rating found. */
import { filesOf, headOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { RunOutcome, TrialFinding } from '../trials/run-outcome.ts';
import { type Letter, type States, statesOf } from '../trials/states.ts';
import type { Trial } from '../trials/trial.ts';
import type { RatingPlan } from './plan.ts';

export interface RatingRow {
  readonly situation: string;
  /** Largest scale that passes, or null. */
  readonly scale_ratio: number | null;
  /** Scaled values at that scale, or at the one that came nearest. */
  readonly values: Readonly<Record<string, string>>;
  /** Breaks one step above; where nothing passes, never clears. */
  readonly binding: string;
  readonly headroom_ratio: number;
  /** The binding limit's own numbers where it is exceeded; null where it is not a limit or none was. */
  readonly exceeded: Pick<TrialFinding, 'value' | 'limit' | 'unit' | 'headroom_ratio'> | null;
  /** How the scale that passes came out; null where none does. */
  readonly letter: Letter | null;
  /** The largest that was tried passes: the rating lies at or above it. */
  readonly or_more: boolean;
  readonly reversed: readonly string[];
  /** Where nothing passes: the scale at which `binding` came nearest. */
  readonly nearest_ratio: number | null;
  /** Limits that could not be judged at that scale: it passes with these conditions. */
  readonly not_judged: readonly string[];
  /** What its pass rests on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  /** At that scale, or at the one that came nearest. */
  readonly trial: Trial<'run'>;
  readonly replay: string;
}

export interface CurvePoint {
  readonly duty: string;
  readonly period: string;
  readonly high_W: number | null;
  readonly pulsed_over_steady_ratio: number | null;
  readonly binding: string;
  /** How the high level that passes came out; null where none does. */
  readonly letter: Letter | null;
  readonly conditions: readonly string[];
  readonly trial: Trial<'run'>;
  readonly replay: string;
}

export interface RatingReport extends StudyHead {
  readonly limit_titles: LimitTitles;
  /** Over all situations. */
  readonly scale_ratio: number | null;
  readonly binding: string;
  readonly table: readonly RatingRow[];
  readonly scaled: readonly string[];
  readonly steady: { readonly power_W: number | null; readonly binding: string } | null;
  readonly curve: readonly CurvePoint[];
  /** How every scale that was run came out. */
  readonly states: States;
  readonly runs: number;
}

/** `rows`: one for each task, in their order; `outcomes`: of every scale that was run. */
export function ratingReport(
  plan: RatingPlan,
  rows: readonly RatingRow[],
  outcomes: readonly RunOutcome[],
): RatingReport {
  const { study, situations, reads, scaled, points } = plan;
  const table = rows.slice(0, situations.length);
  const [level = null, ...curved] = rows.slice(situations.length);
  const lowest = table.reduce((a, b) => ((b.scale_ratio ?? -1) < (a.scale_ratio ?? -1) ? b : a));
  const { load } = reads[0]!.scenario;
  const peak = ({ scale_ratio }: RatingRow): number | null =>
    scale_ratio === null || load.kind !== 'pulse-train' ? null : load.high_W * scale_ratio;
  const steady_W = level === null ? null : peak(level);
  return {
    ...headOf(
      study,
      [
        ...filesOf([study.inputs, ...reads.map(({ scenario }) => scenario.inputs)]),
        ...study.changes.map((change) => ({ change })),
      ],
      reads.map(({ scenario }) => scenario.nominal_V),
    ),
    limit_titles: limitTitles(reads.map(({ scenario }) => scenario)),
    scale_ratio: lowest.scale_ratio,
    binding: lowest.binding,
    table,
    scaled: [...new Set(scaled.flat())],
    steady: level === null ? null : { power_W: steady_W, binding: level.binding },
    curve: curved.map((row, k) => {
      const high_W = peak(row);
      return {
        ...points[k]!,
        high_W,
        pulsed_over_steady_ratio: high_W === null || steady_W === null ? null : high_W / steady_W,
        binding: row.binding,
        letter: row.letter,
        conditions: row.conditions,
        trial: row.trial,
        replay: row.replay,
      };
    }),
    states: statesOf(outcomes),
    runs: outcomes.length,
  };
}
