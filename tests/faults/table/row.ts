/**
 * A row of the trade's fault list (common practice, no source): what is injected and what must come of it, stated in
 * words and held in numbers that were calculated by hand beforehand where they can be.
 */
import type { OutcomeKind } from '../../../src/analysis/judge/outcome.ts';
import type { Faulted } from '../fault-runs.ts';

export interface FaultRow {
  readonly n: string;
  readonly what: string;
  readonly base: string;
  readonly changes: Readonly<Record<string, string>>;
  readonly happens: readonly string[];
  readonly kind: OutcomeKind;
  readonly check: (run: Faulted) => void;
}

export const row = (
  n: string,
  what: string,
  base: string,
  changes: FaultRow['changes'],
  happens: readonly string[],
  kind: OutcomeKind,
  check: FaultRow['check'],
): FaultRow => ({ n, what, base, changes, happens, kind, check });

/** 200 kW held: what happens then is the fault's own. */
export const held = {
  start: 'settled',
  duration: '2 s',
  'load.low': '200 kW',
  'load.high': '200 kW',
} as const;
export const longer = { ...held, duration: '4 s' } as const;
export const pulses = { duration: '3.2 s' } as const;
