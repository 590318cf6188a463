/** What every part of a study's page is given: where it stands, how keys are called, who runs trials. */
import type { TrialRunner } from './trial/runner.ts';
import type { Words } from './words.ts';

export interface StudyPage {
  readonly answer: HTMLElement;
  readonly parts: HTMLElement;
  readonly words: Words;
  /** null where the page holds no engine: of studies without trials, or kept without their inputs. */
  readonly runner: TrialRunner | null;
}
