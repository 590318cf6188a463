/** A scenario from files to verdict, and the same without the run: what Node and a browser do alike. */
import type { Report } from '../analysis/judge/report.ts';
import type { Problem } from '../base/problem.ts';
import type { Result } from '../engine/result.ts';
import type { InputSource } from '../request/input-source.ts';
import { prepare, scenarioOf } from '../request/prepare.ts';
import { run } from '../run.ts';
import type { LimitsText } from '../scenario/read.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { type CheckAsk, changesOf, type RunAsk, requestOf } from './ask.ts';

/** A scenario that was read and found in order. */
export interface Checked {
  /** Frozen, in SI. */
  readonly scenario: Scenario;
  /** What is legal and unusual. */
  readonly warnings: readonly Problem[];
  /** Every path that `set` may name. */
  readonly paths: readonly string[];
}

/** A run that was judged. */
export interface Judged {
  /** Verdict, findings, metrics and what they rest on: the document that the command prints with `--json`. */
  readonly report: Report;
  /** What was recorded; `traceOf` reads a channel of it. */
  readonly result: Result;
  /** Frozen, in SI, changes made. */
  readonly scenario: Scenario;
  /** What is legal and unusual. */
  readonly warnings: readonly Problem[];
}

/** Throws BadInput with every problem found. */
export function checkFrom(
  source: InputSource,
  file: string,
  ask: CheckAsk,
  shippedLimits: LimitsText,
): Checked {
  const request = { scenario: file, changes: changesOf(ask), load: null, waivers: [] };
  const { scenario, warnings, read } = scenarioOf(request, source, { shippedLimits });
  return { scenario, warnings, paths: read.paths };
}

/** Throws BadInput with every problem found. */
export function runFrom(source: InputSource, file: string, ask: RunAsk, shippedLimits: LimitsText): Judged {
  const { scenario, recorded, warnings } = prepare(requestOf(file, ask), source, { shippedLimits });
  const { report, result } = run(scenario, recorded, ask);
  return { report, result, scenario, warnings };
}
