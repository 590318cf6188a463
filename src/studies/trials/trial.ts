/**
 * What a study asks for: a scenario with changes, and what is wanted of it. The kind of a trial says how it is carried
 * out and what comes out; `bench/` has one table of them. A scenario is changed by changes alone, so that every trial
 * is data: it can be kept, carried out on any thread and named by its sum.
 */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Driven } from '../duty/driven.ts';
import type { Packed } from '../fit/packed.ts';
import type { FoundPlace, MeasuredAsked } from '../fit/place.ts';
import type { GainsCell } from '../gains/cell.ts';
import type { InjectAsked } from '../response/inject/asked.ts';
import type { Injected } from '../response/inject/inject.ts';
import type { MarginsAt } from '../response/margins-at.ts';
import type { Response, ResponseAsked } from '../response/respond.ts';
import type { SettledAsked } from '../response/settled.ts';
import type { AtLoad } from '../settled-load.ts';
import type { ShareAsked, Sharing } from '../share/watch.ts';
import type { RunOutcome } from './run-outcome.ts';

/** A scenario file with changes. */
export interface ChangedScenario {
  /** Path of the scenario file. */
  readonly scenario: string;
  /** Applied after the scenario's own, in this order. */
  readonly changes: readonly Change[];
}

/** What a kind of trial asks beside its scenario, and what comes out of it. Outcomes are kept as JSON. */
interface Kinds {
  /** The whole way: run and judged. */
  readonly run: { readonly asks: object; readonly outcome: RunOutcome };
  /** A point of a gains map: the modes that decide, and the share loop's own step. */
  readonly cell: { readonly asks: AtLoad & { readonly state_count?: number }; readonly outcome: GainsCell };
  /** Curves, margins and modes about the settled point. */
  readonly response: { readonly asks: ResponseAsked; readonly outcome: Response };
  /** Margins and least damping about the settled point. */
  readonly margins: { readonly asks: SettledAsked; readonly outcome: MarginsAt };
  /** A sine put into a run about the settled point, and what comes of it. */
  readonly injected: { readonly asks: InjectAsked; readonly outcome: Injected };
  /** Where a measurement lies in the run. */
  readonly place: { readonly asks: MeasuredAsked; readonly outcome: FoundPlace };
  /** The measured channels as the run has them; nothing is judged. */
  readonly simulated: { readonly asks: MeasuredAsked; readonly outcome: Packed };
  /** The whole way, with what the run shows of what heats, wears and charges while it goes on. */
  readonly drive: { readonly asks: object; readonly outcome: Driven };
  /** The share loop in time, while something happens to it. */
  readonly share: { readonly asks: ShareAsked; readonly outcome: Sharing };
}

export type TrialKind = keyof Kinds;

export type Trial<K extends TrialKind = TrialKind> = ChangedScenario & {
  readonly kind: K;
} & Kinds[K]['asks'];

export type OutcomeOf<K extends TrialKind> = Kinds[K]['outcome'];

/** An outcome beside its kind, so that it is known for what it is wherever it comes from. */
export type Done<K extends TrialKind = TrialKind> = {
  readonly [P in K]: { readonly kind: P; readonly outcome: OutcomeOf<P> };
}[K];

/** Gives the outcomes of trials in their order. `enough`, asked with ever longer beginnings, may end it early. */
export type RunTrials = <K extends TrialKind>(
  trials: readonly Trial<K>[],
  enough?: (beginning: readonly OutcomeOf<K>[]) => boolean,
) => Promise<readonly OutcomeOf<K>[]>;

/** The same for whole runs alone: what searches and levers ask for. */
export type RunWhole = (
  trials: readonly Trial<'run'>[],
  enough?: (beginning: readonly RunOutcome[]) => boolean,
) => Promise<readonly RunOutcome[]>;

/** Reads a scenario with its changes without running it, for a plan; throws BadInput. */
export type ReadChanged = (of: ChangedScenario) => ReadScenario;
