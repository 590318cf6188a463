import type { SearchResult } from '../search/least-passing.ts';

/** Whether more was always better, of what was run. */
export interface Monotone {
  readonly holds: boolean;
  readonly whole: boolean;
  readonly note: string;
}

/** `ordered`: what is varied goes from less to more. */
export function monotoneNote(founds: readonly SearchResult[], ordered: boolean): Monotone {
  if (!ordered) {
    const note = 'every candidate was run, and the one with most headroom is taken';
    return { holds: true, whole: true, note };
  }
  const reversed = [...new Set(founds.flatMap((found) => found.reversed))];
  const whole = founds.every((found) => found.whole);
  const tried = whole
    ? 'every candidate was run'
    : 'checked on the candidates that were run, between which the search halved';
  return reversed.length === 0
    ? { holds: true, whole, note: `no limit passes at less and fails at more: ${tried}` }
    : {
        holds: false,
        whole,
        note: `more is not always better: ${reversed.join('; ')} ${reversed.length === 1 ? 'passes' : 'pass'} at less and ${reversed.length === 1 ? 'fails' : 'fail'} at more; ${tried}`,
      };
}
