/** Both forms of the kernel behind one face: the functions of `engine/kernel.ts`, plain or compiled. */
import type { ChargeKeeper } from '../../firmware/tray/charge-keeper.ts';
import type { TrayGuard } from '../../firmware/tray/tray-guard.ts';
import * as functions from '../kernel.ts';
import type { Look } from '../look.ts';
import type { Closing } from '../record/closing.ts';
import type { Rung } from '../rung.ts';
import type { Step } from '../step.ts';

/**
 * `fast`: the compiled kernel where the platform has it, linked to the cabinet's memory once that pays; `linked`: the same
 * from the first step on; `plain`: the same code as it stands.
 */
export type KernelChoice = 'fast' | 'linked' | 'plain';

/** What the kernel is handed, under the names by which its build knows it. */
export interface Structures {
  readonly TrayGuard: TrayGuard;
  readonly ChargeKeeper: ChargeKeeper;
  readonly Step: Step;
  readonly Rung: Rung;
  readonly Look: Look;
  readonly Closing: Closing;
}

export type Kernel = typeof functions & {
  /** What runs now. */
  readonly form: KernelChoice;
  /** Makes an object ready to be handed over; its columns may move, so it comes before anyone keeps one of them. */
  hold<S extends keyof Structures>(structure: S, of: Structures[S]): void;
  /** A column of zeros where the kernel reads it without moving it: for a long one, of which a short run fills a part. */
  column(length: number): Float64Array;
};

export const plainKernel: Kernel = {
  ...functions,
  form: 'plain',
  hold: () => {},
  column: (length) => new Float64Array(length),
};
