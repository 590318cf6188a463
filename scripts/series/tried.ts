/** One number of a series: how it ended, and how long it took. */

/** Longest time that it may take, beyond which it is wrong [ms]. */
const longest_ms = 5000;

/** `Ending`: how it may end beside `wrong`. */
export interface Tried<Ending extends string> {
  readonly ending: Ending | 'wrong';
  /** What is wrong, or what was found where it was refused. */
  readonly why: string;
}

export type Timed<Ending extends string> = Tried<Ending> & { readonly spent_ms: number };

export function timed<Ending extends string>(attempt: () => Tried<Ending>): Timed<Ending> {
  const begun_ms = performance.now();
  const outcome = attempt();
  const spent_ms = performance.now() - begun_ms;
  if (spent_ms > longest_ms) return { ending: 'wrong', why: `${Math.round(spent_ms)} ms`, spent_ms };
  return { ...outcome, spent_ms };
}
