/** Studies on this thread: the same trials as on the bench, without its pool. */
import { BadInput } from '../../src/base/problem.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { Outcomes } from '../../src/studies/bench/outcomes.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { Workbench } from '../../src/studies/bench/workbench.ts';
import { designs } from '../../src/studies/designs/designs.ts';
import { planDesigns } from '../../src/studies/designs/plan.ts';
import type { DesignsReport } from '../../src/studies/designs/report.ts';
import { planRating } from '../../src/studies/rating/plan.ts';
import { rating } from '../../src/studies/rating/rating.ts';
import type { RatingReport } from '../../src/studies/rating/report.ts';
import { planShare } from '../../src/studies/share/plan.ts';
import type { ShareReport } from '../../src/studies/share/report.ts';
import { share } from '../../src/studies/share/share.ts';
import { planSize } from '../../src/studies/size/plan.ts';
import type { SizeReport } from '../../src/studies/size/report.ts';
import { size } from '../../src/studies/size/size.ts';
import { keyOf } from '../../src/studies/trials/key.ts';
import type { RunOutcome } from '../../src/studies/trials/run-outcome.ts';
import type { OutcomeOf, ReadChanged, RunTrials, Trial, TrialKind } from '../../src/studies/trials/trial.ts';
import { emptyStudy, type StudyFile, type StudyKind } from '../../src/studies/written/study-file.ts';

/** Outcomes by their trial: what two studies of a file both ask for is carried out once. */
const kept = new Outcomes();

/** The least of `single-step` that shows the step whole: a window of the 100 ms ramp before it, half a second behind it. */
export const shown = ['load.at = 0.1 s', 'duration = 0.61 s'] as const;

export interface Here {
  readonly read: ReadChanged;
  readonly run: RunTrials;
}

export function contextHere(): Here & { readonly trials: Trial[] } {
  const shelf = new Shelf(new DiskSource());
  const bench = new Workbench(shelf);
  const trials: Trial[] = [];
  return {
    trials,
    read: (of) => shelf.read(of),
    run: async <K extends TrialKind>(
      asked: readonly Trial<K>[],
      enough: (beginning: readonly OutcomeOf<K>[]) => boolean = () => false,
    ) => {
      const outcomes: OutcomeOf<K>[] = [];
      for (const trial of asked) {
        trials.push(trial);
        const key = keyOf(trial);
        if (kept.get(trial.kind, key) === undefined) kept.set(key, bench.carryOut(trial));
        outcomes.push(kept.get(trial.kind, key)!);
        if (enough(outcomes)) break;
      }
      return outcomes;
    },
  };
}

/** Every whole run comes out so. */
export function always(outcome: RunOutcome): RunTrials {
  const outcomes = new Outcomes();
  outcomes.set('', { kind: 'run', outcome });
  return async (trials) => trials.map(({ kind }) => outcomes.get(kind, '')!);
}

type All = { readonly all?: boolean };
/** `levers: false`: what bounds the answer is not asked, which is half of the runs. */
type Sizing = All & { readonly levers?: boolean };

export async function sized(
  study: StudyFile,
  { read, run }: Here,
  options: Sizing = {},
): Promise<SizeReport> {
  return size.carryOut(planSize(study, read, options), run);
}

export async function designed(study: StudyFile, { read, run }: Here): Promise<DesignsReport> {
  return designs.carryOut(planDesigns(study, read), run);
}

export async function rated(study: StudyFile, { read, run }: Here, options: All = {}): Promise<RatingReport> {
  return rating.carryOut(planRating(study, read, options), run);
}

/** How the shelves of a shipped scenario share, in all cases or those named. */
export async function sharedHere(
  name: string,
  load_W: number,
  only?: readonly string[],
): Promise<ShareReport['cases']> {
  const { read, run } = contextHere();
  const scenario = `scenarios/${name}.yaml`;
  return (await share.carryOut(planShare({ scenario, changes: [], load_W }, read, only), run)).cases;
}

/** A study of a shipped scenario with words and lists as a file would give them. */
export function studyOf(
  kind: StudyKind,
  scenario: string,
  parts: Partial<Omit<StudyFile, 'words'>> & { readonly words?: Readonly<Record<string, string>> } = {},
): StudyFile {
  const { words = {}, ...lists } = parts;
  const base = emptyStudy(kind, `scenarios/${scenario}.yaml`);
  return { ...base, ...lists, words: new Map(Object.entries(words)) };
}

/** `path = value` pairs as changes. */
export function changes(
  ...pairs: readonly string[]
): readonly { readonly path: string; readonly value: string }[] {
  return pairs.map((pair) => {
    const [path = '', value = ''] = pair.split(' = ');
    return { path, value };
  });
}

/** What a refusal says; throws where nothing is refused. */
export async function messageOf(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}
