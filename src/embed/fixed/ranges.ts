/** What the numbers of each law came to in a run, over all tasks that run it. */
import type { LawName, TimedWitness } from '../../firmware/law-run.ts';
import { laws } from '../made/laws.ts';
import { type Format, formatsOf } from './formats.ts';
import { RangeSteps } from './range-steps.ts';
import { isNumbers, Shadow } from './shadow.ts';

/** The formats of each law that ran, by its places. */
export type LawFormats = ReadonlyMap<LawName, readonly Format[]>;

export class Ranges {
  private readonly steps = new Map<LawName, RangeSteps>();
  private readonly shadows = new Map<
    string,
    { readonly shadow: Shadow<number>; readonly look: () => void }
  >();

  readonly witness: TimedWitness = (_, law, run, when) => {
    const key = `${law} of ${run.task}`;
    const steps = this.steps.get(law) ?? new RangeSteps(laws[law].fixed.slots.length);
    this.steps.set(law, steps);
    let followed = this.shadows.get(key);
    if (followed === undefined) {
      const shadow = new Shadow<number>(law, run, (x) => x);
      followed = { shadow, look: looking(law, shadow, steps) };
      this.shadows.set(key, followed);
    }
    if (when === 'after') followed.shadow.follow(steps);
    followed.look();
  };

  /** Largest amounts of a law's places, for those who read. */
  of(law: LawName): RangeSteps {
    return this.steps.get(law)!;
  }

  formats(): LawFormats {
    return new Map([...this.steps].map(([law, steps]) => [law, formatsOf(laws[law], steps)]));
  }
}

/** Notes every number of a task as it stands. */
function looking(law: LawName, shadow: Shadow<number>, steps: RangeSteps): () => void {
  const { slots } = laws[law].fixed;
  const places = shadow.ofTask().flatMap((leaf) => {
    const at = isNumbers(leaf) ? slots.findIndex(({ field }) => field === leaf.field) : -1;
    return at < 0 ? [] : [{ leaf, at }];
  });
  return () => {
    for (const { leaf, at } of places)
      for (let k = 0; k < (leaf.length ?? 1); k++) steps.read(leaf.read(k), at);
  };
}
