/** Of the library what Node and a browser share. */
export type {
  Band,
  Finding,
  FindingVerdict,
  Metrics,
  Report,
  Verdict,
} from '../analysis/judge/report.ts';
export { BadInput, type Problem } from '../base/problem.ts';
export type { JudgedRun } from '../bundle/format.ts';
export type { Result } from '../engine/result.ts';
export type { Scenario } from '../scenario/scenario.ts';
export { toolVersion as version } from '../version.ts';
export type { CheckAsk, Files, RunAsk } from './ask.ts';
export type { Checked, Judged } from './judged.ts';
export { type ChannelTrace, traceOf } from './trace-of.ts';
