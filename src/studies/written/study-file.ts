/** A study as written: what is varied, crossed or sampled. `read-study.ts` has its layout. */
import type { Change, InputFile } from '../../scenario/scenario.ts';
import type { Origin } from '../../scenario/text/origin.ts';
import { stemOf } from '../../scenario/text/paths.ts';
import type { StatedFigure } from './figures.ts';

export type StudyKind = 'size' | 'designs' | 'rating' | 'matrix' | 'spread' | 'duty';

/** A stretch of a calendar: changes, and how long it lasts as written. */
export interface Stretch extends Variant {
  readonly for: string;
}

/** A name and the changes it stands for. */
export interface Variant {
  readonly name: string;
  readonly changes: readonly Change[];
  /** A scenario of its own, where it has one. */
  readonly scenario?: string;
  /** What it stands for, where that is more than its name. */
  readonly about?: string;
  /** Where a file says so. */
  readonly origin?: Origin;
}

export interface StudyFile {
  readonly id: string;
  readonly kind: StudyKind;
  readonly title: string;
  readonly about: string;
  readonly scenario: string;
  readonly changes: readonly Change[];
  /** Loads or events that all must pass; one without a name of its own where the file lists none. */
  readonly cases: readonly Variant[];
  readonly corners: readonly Variant[];
  readonly redundancy: readonly Variant[];
  readonly faults: readonly Variant[];
  /** What a cabinet goes through, in turn. */
  readonly stretches: readonly Stretch[];
  /** One fault of each kind of event there is, this long after the start; null: only those listed. */
  readonly everyFault: {
    readonly at: string;
    readonly units: 'one' | 'each';
    readonly back: string;
    /** Where a file says so. */
    readonly origin?: Origin;
  } | null;
  /** Changes that may help, tried one by one. */
  readonly levers: readonly Variant[];
  /** What is varied: a path and its values as written, `6 to 14`; or a name and designs of its own, `a | b`. */
  readonly vary: readonly (readonly [path: string, values: string])[];
  /** Designs by the name they are varied under, least first: each makes several changes at once. */
  readonly designs: Readonly<Record<string, readonly Variant[]>>;
  /** What parts cost, weigh and take up, where the study says so. */
  readonly figures: readonly StatedFigure[];
  /** What is scaled, with `from`, `to` and `within`. */
  readonly scale: readonly string[];
  readonly tolerances: readonly (readonly [path: string, text: string])[];
  /** Single words, by key: `read-study.ts` lists them by kind. */
  readonly words: ReadonlyMap<string, string>;
  readonly inputs: readonly InputFile[];
}

/** A study of one kind with nothing in it yet: what a command line fills. */
export function emptyStudy(kind: StudyKind, scenario: string): StudyFile {
  return {
    id: stemOf(scenario),
    kind,
    title: '',
    about: '',
    scenario,
    changes: [],
    cases: [],
    corners: [],
    redundancy: [],
    faults: [],
    stretches: [],
    everyFault: null,
    levers: [],
    vary: [],
    designs: {},
    figures: [],
    scale: [],
    tolerances: [],
    words: new Map(),
    inputs: [],
  };
}
