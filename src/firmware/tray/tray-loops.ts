/**
 * What the tray task does of every tray at each run, behind one face: as it stands, or by the engine's compiled kernel,
 * with the same bits.
 */
import type { Int } from '../../base/int.ts';

/** `TrayGuard`: which tray must stop. */
interface Guards {
  /** The first tray from `from` on that must stop; −1: none. */
  firstAstray(from: Int): Int;
}

/** `ChargeKeeper`: what each tray is asked for, given and told. */
interface Keeps {
  ask(smoothed_W: number, isAssisting: boolean, isLost: boolean, isStraight: boolean): number;
}

export interface TrayLoops {
  /** Makes an object ready to be handed over. */
  hold(structure: 'TrayGuard' | 'ChargeKeeper', of: Guards | Keeps): void;
  /** A column of zeros where the loops read it. */
  column(length: number): Float64Array;
  /** `firstAstray`. */
  astray(guard: Guards, from: Int): Int;
  /** `ask`. */
  ask(charge: Keeps, smoothed_W: number, isAssisting: boolean, isLost: boolean, isStraight: boolean): number;
}

export const plainLoops: TrayLoops = {
  hold: () => {},
  column: (length) => new Float64Array(length),
  astray: (guard, from) => guard.firstAstray(from),
  ask: (charge, smoothed_W, isAssisting, isLost, isStraight) =>
    charge.ask(smoothed_W, isAssisting, isLost, isStraight),
};
