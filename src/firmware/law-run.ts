/**
 * What looks on at a law of numbers alone while it runs: everything that the law is tuned to, remembers, is told and
 * commands, before and after each run. What it looks at is the task's own: it changes nothing, and copies what it keeps.
 */

/** Laws that stand by themselves; each is a text of its own in C too. */
export const lawNames = ['share', 'smoothing', 'charge', 'voltage'] as const;

export type LawName = (typeof lawNames)[number];

export interface LawRun {
  /** The task that runs it. */
  readonly task: string;
  /** Sample times of the task and its units, where they stand with the units and not with the firmware. */
  readonly timing?: {
    readonly period_s: number;
    readonly latency_s: number;
    readonly units: readonly string[];
  };
  /** What it is tuned to: the tables that it takes, by the names of its parameters. */
  readonly law: Readonly<Record<string, object>>;
  readonly memory: object;
  readonly input: object;
  readonly command: object;
}

export type LawWitness = (law: LawName, run: LawRun, when: 'before' | 'after') => void;

/** The same with the tick of the run. */
export type TimedWitness = (tick: number, ...run: Parameters<LawWitness>) => void;

/** Has `witness` look on at every run of these laws from now on. */
export function lookOn(tasks: readonly { witness: LawWitness | null }[], witness: LawWitness): void {
  for (const task of tasks) task.witness = witness;
}
