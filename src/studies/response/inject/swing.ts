/**
 * What is put in, against time, with a height of 1: a sine, which goes on, or a chirp, one sweep through all frequencies.
 *
 *   sine:   sin ωt
 *   chirp:  w(t) sin(2π f_1 (T/L)(e^(Lt/T) − 1)), L = ln(f_2/f_1): each octave in the same time, so that an octave's lines are as strong
 *           as the next's but for 1/√f; w rises by half a cosine over the octave below what is read, falls over that above
 *
 * Firmware samples: what a chirp holds at f ± n/T comes back at f too, but at another time. So a line is read through a gate about the
 * moment at which the chirp passes its frequency, as a distortion product is kept out (A. Farina, 108th AES Convention, 2000, from memory).
 */
import { exponential } from '../../../base/exponential.ts';
import { logarithm } from '../../../base/logarithm.ts';
import { cosine, sine } from '../../../base/sine.ts';

export interface Swing {
  at(t_s: number): number;
  /** What it swings with at a time [Hz]. */
  frequency_Hz(t_s: number): number;
  /** How much a time counts for the line at a frequency, 0 to 1. */
  weight(frequency_Hz: number, t_s: number): number;
  /** Nothing is read before. */
  readonly from_s: number;
  /** The end: whole cycles of a sine after `from_s`, of a chirp its own. */
  readonly until_s: number;
}

/** Before the cycles that are read, and they themselves: as long as this, or as many cycles [s]. */
const settling = { least_s: 0.1, cycles: 2 } as const;
const reading = { least_s: 0.1, cycles: 4 } as const;
/** Where clamps are looked for nothing is read: this long, or as many cycles. */
const clamping = { least_s: 5e-3, cycles: 4 } as const;

/** Half of a chirp's gate: so many cycles of what is read, or an octave. */
const gate_cycles = 32;

function whole_s(of: { readonly least_s: number; readonly cycles: number }, frequency_Hz: number): number {
  return Math.ceil(Math.max(of.least_s * frequency_Hz, of.cycles)) / frequency_Hz;
}

/** `isRead`: long enough to be read, or only to come to a clamp. */
export function sineSwing(frequency_Hz: number, isRead: boolean): Swing {
  const omega = 2 * Math.PI * frequency_Hz;
  const from_s = isRead ? whole_s(settling, frequency_Hz) : 0;
  return {
    at: (t_s) => sine(omega * t_s),
    frequency_Hz: () => frequency_Hz,
    weight: () => 1,
    from_s,
    until_s: from_s + whole_s(isRead ? reading : clamping, frequency_Hz),
  };
}

/** An octave on either side of what is read. */
const aside = 2;

/** Cycles that a sweep must make in the lowest octave that is read. */
export const leastCycles = 4;

/** The shortest sweep that reads these frequencies [s]. */
export function leastSweep_s(low_Hz: number, high_Hz: number): number {
  return (leastCycles / low_Hz) * (logarithm((aside * aside * high_Hz) / low_Hz) / logarithm(2));
}

export function chirpSwing(low_Hz: number, high_Hz: number, sweep_s: number): Swing {
  const first_Hz = low_Hz / aside;
  const pace_per_s = logarithm((aside * high_Hz) / first_Hz) / sweep_s;
  const ends_s = logarithm(aside) / pace_per_s;
  const height = (t_s: number): number => {
    const toEnd_s = Math.min(t_s, sweep_s - t_s);
    if (toEnd_s <= 0) return 0;
    return toEnd_s >= ends_s ? 1 : (1 - cosine((Math.PI * toEnd_s) / ends_s)) / 2;
  };
  return {
    at: (t_s) => {
      const w = height(t_s);
      return w === 0
        ? 0
        : w * sine(((2 * Math.PI * first_Hz) / pace_per_s) * (exponential(pace_per_s * t_s) - 1));
    },
    frequency_Hz: (t_s) => first_Hz * exponential(pace_per_s * Math.min(t_s, sweep_s)),
    weight: (f, t_s) => {
      const passes_s = logarithm(f / first_Hz) / pace_per_s;
      const part = Math.abs(t_s - passes_s) / Math.min(gate_cycles / f, ends_s);
      return part < 1 ? (1 + cosine(Math.PI * part)) / 2 : 0;
    },
    from_s: 0,
    until_s: sweep_s,
  };
}
