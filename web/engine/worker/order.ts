/** What passes between the page and the worker that runs the engine. Each order is answered once, a run with its progress before. */
import type { Report } from '../../../src/analysis/judge/report.ts';
import type { Problem } from '../../../src/base/problem.ts';
import type { ReadInput } from '../../../src/bundle/pack-input.ts';
import type { PageEngine } from '../../../src/bundle/page-contents.ts';
import type { Result } from '../../../src/engine/result.ts';
import type { RunRequest } from '../../../src/request/run-request.ts';
import type { Change, Scenario } from '../../../src/scenario/scenario.ts';
import type { WholeRun } from '../../../src/studies/bench/run-whole.ts';
import type { ChangedScenario } from '../../../src/studies/trials/trial.ts';
import type { Lever } from './lever.ts';
import type { Offer } from './offer.ts';

/** What the kept run was made from, and the limits that the project ships, which a scenario's own are compared with. */
export interface Kept {
  readonly request: RunRequest;
  readonly inputs: readonly ReadInput[];
  readonly shippedLimits: PageEngine['shippedLimits'];
}

/** What the trials of a kept study are read from. */
export interface KeptStudy {
  readonly inputs: readonly ReadInput[];
}

/** How long it took on the clock. */
export interface Timed {
  readonly wall_s: number;
}

/** A run under changes. */
export interface Ran extends Timed {
  readonly report: Report;
  readonly result: Result;
  readonly scenario: Scenario;
  /** What the reader warned of. */
  readonly warnings: readonly Problem[];
}

/** By kind, what an order asks with and what it is answered with. `open` or `study` comes first. */
export interface Orders {
  readonly open: { readonly ask: Kept; readonly answer: Offer };
  /** A value by its path; problems where no change can name it. */
  readonly lever: { readonly ask: string; readonly answer: Lever };
  readonly run: { readonly ask: readonly Change[]; readonly answer: Ran };
  /** The scenario's text with the changes written into it; null where the load was replaced by an option. */
  readonly write: { readonly ask: readonly Change[]; readonly answer: string | null };
  readonly study: { readonly ask: KeptStudy; readonly answer: null };
  /** A trial of the study, carried out as its own threads did. */
  readonly trial: { readonly ask: ChangedScenario; readonly answer: WholeRun & Timed };
}

export type OrderKind = keyof Orders;

/** What a worker is opened with. */
export type OpeningKind = 'open' | 'study';

export type Order = {
  readonly [K in OrderKind]: { readonly kind: K; readonly ask: Orders[K]['ask'] };
}[OrderKind];

export type Reply =
  | { readonly kind: 'progress'; readonly fraction: number }
  | { readonly kind: 'done'; readonly answer: Orders[OrderKind]['answer'] }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'bug'; readonly text: string };
