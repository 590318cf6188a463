/** Studies on this thread: the same trials as on the bench, without its pool. */
import { Shelf } from '../../src/studies/bench/run-trial.ts';
import type { StudyContext } from '../../src/studies/context.ts';
import { emptyStudy, type StudyFile, type StudyKind } from '../../src/studies/study-file.ts';
import type { Trial, TrialOutcome } from '../../src/studies/trial.ts';

/** Outcomes by the text of their trial: what two studies of a file both ask for is run once. */
const kept = new Map<string, TrialOutcome>();

/** The least of `single-step` that shows the step whole: a window of the 100 ms ramp before it, half a second behind it. */
export const shown = ['load.at = 0.1 s', 'duration = 0.61 s'] as const;

export function contextHere(): StudyContext & { readonly trials: Trial[] } {
  const shelf = new Shelf();
  const trials: Trial[] = [];
  return {
    trials,
    read: (trial) => shelf.read(trial),
    run: async (asked, enough = () => false) => {
      const outcomes: TrialOutcome[] = [];
      for (const trial of asked) {
        trials.push(trial);
        const key = JSON.stringify(trial);
        const outcome = kept.get(key) ?? shelf.run(trial);
        kept.set(key, outcome);
        outcomes.push(outcome);
        if (enough(outcomes)) break;
      }
      return outcomes;
    },
  };
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
