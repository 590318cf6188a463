/** What a battery shelf is at over hours, with how long it has been at it. The firmware's phases of seconds are left out. */
export type PackPhase = 'full' | 'carrying' | 'empty' | 'waiting' | 'charging';

export interface PackState {
  readonly charge_ratio: number;
  readonly degC: number;
  readonly phase: PackPhase;
  /** In this phase [s]. */
  readonly for_s: number;
  /** Since it last came to rest after carrying, until it was full again; null where it is full [s]. */
  readonly short_s: number | null;
}
