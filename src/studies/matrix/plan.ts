/** Every cell of a matrix: fault × corner × redundancy, each a run. */
import { settleTime_s } from '../../analysis/record/applies.ts';
import { BadInput, type Problem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { InputFile, Scenario } from '../../scenario/scenario.ts';
import { problemAt } from '../../scenario/text/document.ts';
import type { Origin } from '../../scenario/text/origin.ts';
import { filesOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';
import { type Coverage, coverageOf } from './coverage.ts';
import { everyFault } from './faults.ts';
import { later, type MomentSearch, momentsOf, mostSearched, searchOf } from './moments.ts';
import { pairsOf } from './pairs.ts';
import { shownOf } from './shows.ts';

export interface MatrixPlan extends Planned {
  readonly study: StudyFile;
  readonly faults: readonly Variant[];
  readonly corners: readonly Variant[];
  readonly redundancy: readonly Variant[];
  /** By fault, then redundancy, then corner. */
  readonly places: readonly {
    readonly fault: string;
    readonly redundancy: string;
    readonly corner: string;
  }[];
  /** How much later than written each is tried [s]; of a place without events the first alone. */
  readonly moments_s: readonly number[];
  /** The place of each trial, and how much later its fault comes. */
  readonly tries: readonly { readonly place: number; readonly later_s: number }[];
  readonly trials: readonly Trial<'run'>[];
  /** How moments are searched beyond those; null where each fault is tried at one moment. */
  readonly search: MomentSearch | null;
  readonly coverage: Coverage;
  /** Faults after which no stretch of steady operation is long enough for the ripple of AC power. */
  readonly ripple_not_after: readonly string[];
  readonly inputs: StudyHead['inputs'];
  readonly limit_titles: LimitTitles;
  /** Limits whose values are shown of every cell. */
  readonly shows: readonly string[];
  /** Of the cabinet, which its cautions follow. */
  readonly nominal_V: number;
}

const asItIs: readonly Variant[] = [{ name: 'as it is', changes: [] }];

/** Lists every cell and reads each of its scenarios; throws BadInput with everything wrong. */
export function planMatrix(study: StudyFile, read: ReadChanged): MatrixPlan {
  const base = read({ scenario: study.scenario, changes: study.changes });
  const shows = shownOf(study, base.scenario.limits);
  const none: Variant = { name: 'no fault', changes: [] };
  const made = study.everyFault === null ? [] : everyFault(base, study.everyFault);
  const listed = [...made, ...study.faults];
  const pairs = arePaired(study) ? pairsOf(listed).filter((pair) => canBe(study, pair, read)) : [];
  const all = [...listed, ...pairs];
  const faults = all.some(({ changes }) => changes.length === 0) ? all : [none, ...all];
  const moments_s = momentsOf(study, base.scenario);
  const corners = study.corners.length === 0 ? asItIs : study.corners;
  const redundancy = study.redundancy.length === 0 ? asItIs : study.redundancy;
  const places: MatrixPlan['places'][number][] = [];
  const tries: MatrixPlan['tries'][number][] = [];
  const made_of: MomentSearch['made_of'][number][] = [];
  const trials: Trial<'run'>[] = [];
  for (const fault of faults) {
    for (const spare of redundancy) {
      for (const corner of corners) {
        places.push({ fault: fault.name, redundancy: spare.name, corner: corner.name });
        const before = [...study.changes, ...corner.changes, ...spare.changes];
        made_of.push({ before, fault: fault.changes });
        const happens = fault.changes.some(({ path }) => path === 'events.add');
        for (const later_s of happens ? moments_s : [0]) {
          tries.push({ place: places.length - 1, later_s });
          trials.push(trialOf(study, { before, fault: fault.changes }, later_s));
        }
      }
    }
  }
  if (trials.length > mostTrials) refuseMany(trials.length);
  const short = new Set<string>();
  const room_s: number[] = [];
  const changed: (readonly InputFile[])[] = [];
  const placeOf = (trial: number) => places[tries[trial]!.place]!;
  const problems = trials.flatMap((trial, k) => {
    try {
      const { scenario } = read(trial);
      changed.push(scenario.inputs);
      if (tries[k]!.later_s === 0) room_s[tries[k]!.place] = roomIn(scenario);
      if (!isRippleJudgedAfter(scenario)) short.add(placeOf(k).fault);
      const fault = faults.find(({ name }) => name === placeOf(k).fault)!;
      return tooLate(scenario, fault, fault.origin ?? study.everyFault?.origin ?? null);
    } catch (error) {
      if (error instanceof BadInput) return error.problems;
      throw error;
    }
  });
  const once = new Map(problems.map((problem) => [JSON.stringify(problem), problem]));
  const errors = [...once.values()].filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new BadInput(errors);
  const happening = new Set(tries.filter(({ later_s }) => later_s > 0).map(({ place }) => place)).size;
  const search = moments_s.length === 1 ? null : searchOf(base.scenario, moments_s, { made_of, room_s });
  const inputs = [
    ...filesOf([study.inputs, base.scenario.inputs, ...changed]),
    ...study.changes.map((change) => ({ change })),
  ];
  return {
    ...plannedFrom(study, read, {}, changed),
    study,
    faults,
    corners,
    redundancy,
    places,
    moments_s,
    tries,
    trials,
    search,
    ...(search === null ? {} : { expects: trials.length + mostSearched * happening }),
    coverage: coverageOf(base, listed, pairs.length, moments_s.length),
    ripple_not_after: [...short],
    shows,
    inputs,
    limit_titles: limitTitles([base.scenario]),
    nominal_V: base.scenario.nominal_V,
  };
}

/** A fault at a moment of its cell, as the study's changes, the corner's and the redundancy's come before it. */
export function trialOf(
  { scenario }: Pick<StudyFile, 'scenario'>,
  { before, fault }: MomentSearch['made_of'][number],
  later_s: number,
): Trial<'run'> {
  return { kind: 'run', scenario, changes: [...before, ...later(fault, later_s)] };
}

/** Each is read before anything runs, and takes a run of its own. */
const mostTrials = 20_000;

function refuseMany(count: number): never {
  throw new BadInput([
    {
      severity: 'error',
      path: 'study',
      found: `${count} runs`,
      expected: `at most ${mostTrials}`,
      mend: 'leave out pairs or moments, or some of the corners',
    },
  ]);
}

function arePaired(study: StudyFile): boolean {
  const word = study.words.get('pairs') ?? 'no';
  if (word === 'yes' || word === 'no') return word === 'yes';
  const expected = 'yes or no';
  throw new BadInput([{ severity: 'error', path: 'pairs', found: word, expected, mend: 'write pairs: yes' }]);
}

/** Of two faults that exclude each other there is no cabinet to run. */
function canBe({ scenario, changes }: StudyFile, pair: Variant, read: ReadChanged): boolean {
  try {
    read({ scenario, changes: [...changes, ...pair.changes] });
    return true;
  } catch (error) {
    if (error instanceof BadInput) return false;
    throw error;
  }
}

/** Events of a fault that come when the run is over: it would never be tried, and its cells would pass. */
function tooLate({ events, duration_s }: Scenario, { name, changes }: Variant, at: Origin | null): Problem[] {
  if (!changes.some(({ path }) => path === 'events.add')) return [];
  return events
    .filter(({ at_s }) => at_s >= duration_s)
    .map(({ what, unit, at_s }) =>
      problemAt(
        at,
        `faults.${name}`,
        `${what} ${unit} at ${formatQuantity(at_s, 'time')}`,
        `before the end of the run at ${formatQuantity(duration_s, 'time')}`,
        'lengthen the run or move the fault',
      ),
    );
}

/** From the last event to the end of the run. */
function roomIn({ events, duration_s }: Scenario): number {
  return duration_s - Math.max(0, ...events.map(({ at_s }) => at_s));
}

/** Two periods of 0.5 Hz, where the lowest band begins that a pulse train of some seconds has. */
const enough_s = 4;

/**
 * Steady operation begins 10 s clear of every event and walk-in. Where the run ends before, ripple is judged
 * before the fault only and the cell says nothing of it.
 */
function isRippleJudgedAfter(scenario: Scenario): boolean {
  if (scenario.events.length === 0) return true;
  const last_s = Math.max(...scenario.events.map(({ at_s }) => at_s));
  const returns = scenario.events.some(({ what }) => what === 'ac-return');
  const walks = scenario.shelves.map(({ values }) => values.start_delay_s + values.walk_in_s);
  const walked_s = returns ? Math.max(...walks) : 0;
  return scenario.duration_s - (last_s + walked_s + settleTime_s) >= enough_s - 1e-9;
}
