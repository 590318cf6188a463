/** What passes between the command and the thread that runs the engine. */
import type { Report } from '../../analysis/judge/report.ts';
import type { Problem } from '../../base/problem.ts';
import type { Result } from '../../engine/result.ts';
import type { WaveformFiles } from '../../export/save-waveforms.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { RunOptions } from '../../run.ts';
import type { Scenario } from '../../scenario/scenario.ts';

export interface RunOrder {
  /** Its result is wanted, not the report alone: copying what a run recorded takes longer than many a judgement. */
  readonly wantsResult: boolean;
  readonly scenario: Scenario;
  readonly recorded: RecordedLoad | null;
  /** Run again, varied, and guard the verdict by what moves. */
  readonly doubt: boolean;
  /** A measurement to be laid over the run. */
  readonly measured?: RunOptions['measured'] | undefined;
  /** Waveforms that the thread writes to files as they come. */
  readonly waveforms?: WaveformFiles | undefined;
}

export type RunMessage =
  | { readonly kind: 'progress'; readonly fraction: number }
  | {
      readonly kind: 'done';
      readonly report: Report;
      /** Where it was wanted. */
      readonly result: Result | null;
      readonly rows: number;
      readonly wall_s: number;
    }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'bug'; readonly text: string };
