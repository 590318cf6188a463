/**
 * Stretches of a plant step by step through sparse factors: what carries few vectors over few steps needs no map, whose
 * multiplying out takes the cube of the states.
 */
import type { Step, StepFactors } from '../dense/held-steps.ts';
import { stepFactors } from './step-factors.ts';

/** So many steps of one length. Commands are held. */
export interface SteppedStretch {
  readonly ticks: number;
  readonly steps: number;
  readonly by: StepFactors;
  /** What commands push in each step: q B, where it is not nought. */
  readonly pushes: readonly { readonly place: number; readonly command: number; readonly factor: number }[];
}

/** Carries the plant's part of z over a stretch. `push` is for the way: as many numbers as the plant has states. */
export function carryByStep(
  z: Float64Array,
  { by, steps, pushes }: SteppedStretch,
  step: Step,
  push: Float64Array,
): void {
  const { n } = by;
  push.fill(0);
  for (const { place, command, factor } of pushes) push[place]! += factor * z[n + command]!;
  step(z.subarray(0, n), push, by, steps);
}

/** Stretches of a plant by their length; factors of a step are shared. */
export class Steps {
  private readonly made = new Map<number, Pick<SteppedStretch, 'by' | 'pushes'>>();
  private readonly A: Float64Array;
  private readonly B: readonly Float64Array[];
  private readonly n: number;
  private readonly tick_s: number;
  private readonly rung: number;

  constructor(A: Float64Array, B: readonly Float64Array[], n: number, tick_s: number, rungTicks: number) {
    this.A = A;
    this.B = B;
    this.n = n;
    this.tick_s = tick_s;
    this.rung = rungTicks;
  }

  /** What is left over of whole steps is one of its own. */
  pieces(ticks: number): readonly SteppedStretch[] {
    const steps = Math.floor(ticks / this.rung);
    const rest = ticks - steps * this.rung;
    return [
      ...(rest > 0 ? [{ ticks: rest, steps: 1, ...this.of(rest) }] : []),
      ...(steps > 0 ? [{ ticks: steps * this.rung, steps, ...this.of(this.rung) }] : []),
    ];
  }

  private of(ticks: number): Pick<SteppedStretch, 'by' | 'pushes'> {
    const known = this.made.get(ticks);
    if (known !== undefined) return known;
    const q = (ticks * this.tick_s) / 2;
    const by = stepFactors(this.A, this.n, q);
    const pushes = this.B.flatMap((column, command) =>
      [...column.keys()]
        .filter((place) => column[place] !== 0)
        .map((place) => ({ place, command, factor: q * column[place]! })),
    );
    const made = { by, pushes };
    this.made.set(ticks, made);
    return made;
  }
}
