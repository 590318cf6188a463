/**
 * How far a law on fixed point may come from its run, each task from the same start with the same inputs: for every number that
 * it remembers or commands the largest bound over the run, and how many of its flags may have been set otherwise. Where a
 * comparison may go either way the law is followed both ways, one comparison at a time, and the differences are added.
 */
import type { LawName, LawRun, TimedWitness } from '../../firmware/law-run.ts';
import { idOf } from '../heard.ts';
import type { Leaf } from '../leaves.ts';
import { laws } from '../made/laws.ts';
import { type Bounded, ErrorSteps } from './error-steps.ts';
import type { Format } from './formats.ts';
import type { LawFormats } from './ranges.ts';
import { isNumbers, Shadow } from './shadow.ts';

type Of = 'memory' | 'command';

export class Bounds {
  private readonly tasks = new Map<string, TaskBounds>();
  private readonly formats: LawFormats;

  constructor(formats: LawFormats) {
    this.formats = formats;
  }

  readonly witness: TimedWitness = (_, law, run, when) => {
    const id = idOf(law, run);
    const task = this.tasks.get(id) ?? new TaskBounds(law, run, this.formats.get(law)!);
    this.tasks.set(id, task);
    if (when === 'after') task.take();
  };

  /** Of a number the bound in its unit, of a flag how many of its settings are open. */
  of(id: string, field: string): number {
    return this.tasks.get(id)!.bounds.get(field)!;
  }
}

class TaskBounds {
  readonly bounds = new Map<string, number>();
  private readonly shadow: Shadow<Bounded>;
  private readonly steps: ErrorSteps;
  /** Places in their order, and the number of each that is remembered. */
  private readonly places: readonly {
    readonly of: Of;
    readonly leaf: Leaf;
    readonly k: number;
    readonly j: number;
  }[];

  constructor(law: LawName, run: LawRun, formats: readonly Format[]) {
    this.steps = new ErrorSteps(formats);
    const { slots } = laws[law].fixed;
    this.shadow = new Shadow(law, run, (x, field) =>
      this.steps.read(
        x,
        slots.findIndex((slot) => slot.field === field),
      ),
    );
    const each = (of: Of): { of: Of; leaf: Leaf; k: number }[] =>
      this.shadow[of].flatMap((leaf) =>
        Array.from({ length: leaf.length ?? 1 }, (_, k) => ({ of, leaf, k })),
      );
    let remembered = 0;
    this.places = [...each('memory'), ...each('command')].map((place) => ({
      ...place,
      j: place.of === 'memory' && isNumbers(place.leaf) ? remembered++ : -1,
    }));
    for (const { leaf } of this.places) this.bounds.set(leaf.field, 0);
    this.steps.remembered = new Float64Array(remembered);
  }

  take(): void {
    const { steps, shadow, places } = this;
    const before = this.values();
    steps.flip = -1;
    steps.open = 0;
    shadow.follow(steps);
    const base = this.values();
    const far = places.map(({ leaf }, p) => (isNumbers(leaf) ? steps.total(base[p]!) : 0));
    for (let flip = 0, { open } = steps; flip < open; flip++) {
      this.restore(before);
      steps.flip = flip;
      steps.open = 0;
      shadow.follow(steps);
      this.values().forEach((other, p) => {
        far[p] =
          far[p]! + (isNumbers(places[p]!.leaf) ? this.apart(other, base[p]!) : Number(other !== base[p]));
      });
    }
    places.forEach(({ of, leaf, k, j }, p) => {
      const sum = isNumbers(leaf)
        ? Math.max(this.bounds.get(leaf.field)!, far[p]!)
        : this.bounds.get(leaf.field)! + far[p]!;
      this.bounds.set(leaf.field, sum);
      const value = base[p]!;
      const isKnown = isNumbers(leaf) && value.known !== null && far[p] === steps.total(value);
      if (j >= 0) steps.remembered[j] = far[p]!;
      const next = j < 0 || isKnown ? value : { ...value, known: null, e: 0, slopes: [[j, 1] as const] };
      shadow.put(leaf, k, of, next);
    });
  }

  /** How much further than `base` the law may come where it went the other way. */
  private apart(other: Bounded, base: Bounded): number {
    const beyond = this.steps.total(other) - this.steps.total(base);
    return Math.abs(other.x - base.x) + Math.max(0, beyond);
  }

  private values(): Bounded[] {
    return this.places.map(({ leaf, k, of }) => this.shadow.at(leaf, k, of));
  }

  private restore(values: readonly Bounded[]): void {
    this.places.forEach(({ leaf, k, of }, p) => {
      this.shadow.put(leaf, k, of, values[p]!);
    });
  }
}
