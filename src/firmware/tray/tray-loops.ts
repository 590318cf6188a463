/**
 * What the tray task does of every tray at each run, behind one face: as it stands, or by the engine's compiled kernel,
 * with the same bits.
 */
import type { Int } from '../../base/int.ts';
import type { ChargeKeeper } from './charge-keeper.ts';
import type { TrayGuard } from './tray-guard.ts';

/** What is handed to the loops, under the names by which the kernel's build knows it. */
interface Structures {
  readonly TrayGuard: TrayGuard;
  readonly ChargeKeeper: ChargeKeeper;
}

export interface TrayLoops {
  /** Makes an object ready to be handed over. */
  hold<S extends keyof Structures>(structure: S, of: Structures[S]): void;
  /** A column of zeros where the loops read it. */
  column(length: number): Float64Array;
  /** `TrayGuard.firstAstray`. */
  astray(guard: TrayGuard, from: Int): Int;
  /** `ChargeKeeper.ask`. */
  ask(
    charge: ChargeKeeper,
    smoothed_W: number,
    isAssisting: boolean,
    isLost: boolean,
    isStraight: boolean,
  ): number;
}

export const plainLoops: TrayLoops = {
  hold: () => {},
  column: (length) => new Float64Array(length),
  astray: (guard, from) => guard.firstAstray(from),
  ask: (charge, smoothed_W, isAssisting, isLost, isStraight) =>
    charge.ask(smoothed_W, isAssisting, isLost, isStraight),
};
