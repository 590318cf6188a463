import type { RunRequest } from '../request/run-request.ts';
import type { FileDifferences } from './differences.ts';
import type { Build } from './format.ts';

/** What running a kept run again showed. */
export interface Verification {
  readonly schema_version: 1;
  readonly bundle: string;
  readonly same: boolean;
  /** Another build may rightly differ. */
  readonly build: { readonly kept: Build; readonly here: Build; readonly same: boolean };
  readonly request: RunRequest;
  readonly inputs_count: number;
  /** The verdict line of the run made again. */
  readonly summary: string;
  readonly files: readonly FileDifferences[];
  /** Files in the directory that are no part of the bundle: nothing is said of them. */
  readonly not_compared: readonly string[];
}
