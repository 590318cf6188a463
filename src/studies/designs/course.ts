/** A design on its way through its trials: what it came to so far, and between what its objectives still lie. */
import { trialsOf } from '../search/candidates.ts';
import { passes, type RunOutcome, tightest } from '../trials/run-outcome.ts';
import type { Trial } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import { isFigure, type Objective, rankOf, yearOf } from './objectives.ts';
import type { Design, DesignsPlan } from './plan.ts';
import type { Point } from './rank.ts';

type Asked = Pick<DesignsPlan, 'situations' | 'objectives'>;

/**
 * Its trials in stages: the situations, one after another; then, for a yield, the samples, each in all situations. A stage
 * that fails among the first ends it; a sample that fails is counted.
 */
export class Course {
  readonly design: Design;
  /** Of the situations run so far, in their order. */
  readonly outcomes: RunOutcome[] = [];
  private readonly asked: Asked;
  private samples = 0;
  private survived = 0;

  constructor(design: Design, asked: Asked) {
    this.design = design;
    this.asked = asked;
  }

  get failed(): boolean {
    return !this.outcomes.every(passes);
  }

  get isThrough(): boolean {
    return !this.failed && this.stagesDone === this.stages;
  }

  /** Samples of its yield that passed, and how many were run. */
  get sampled(): { readonly passed: number; readonly of: number } {
    return { passed: this.survived, of: this.samples };
  }

  private get stages(): number {
    return this.asked.situations.length + this.design.draws.length;
  }

  private get stagesDone(): number {
    return this.outcomes.length + this.samples;
  }

  /** Trials of the stage that is `ahead` of the next one; null where there is none. */
  stage(ahead: number): readonly Trial<'run'>[] | null {
    const { situations } = this.asked;
    const { changes, draws } = this.design;
    const at = this.stagesDone + ahead;
    if (at >= this.stages) return null;
    if (at < situations.length) return trialsOf([situations[at]!], changes);
    return trialsOf(situations, [...changes, ...draws[at - situations.length]!]);
  }

  /** What the next stage came to. */
  take(outcomes: readonly RunOutcome[]): void {
    if (this.outcomes.length < this.asked.situations.length) this.outcomes.push(...outcomes);
    else {
      this.samples += 1;
      if (outcomes.every(passes)) this.survived += 1;
    }
  }

  /** The best and the worst that it may still come to, if it passes: alike in what is known. */
  get best(): Point {
    return this.asked.objectives.map((objective) => rankOf(objective, this.bound(objective, 'best')));
  }

  get worst(): Point {
    return this.asked.objectives.map((objective) => rankOf(objective, this.bound(objective, 'worst')));
  }

  /** The value of an objective; null where it is not known. */
  value(objective: Objective): number | null {
    const [best, worst] = [this.bound(objective, 'best'), this.bound(objective, 'worst')];
    if (objective === 'headroom') return this.outcomes.length < this.asked.situations.length ? null : best;
    return best === worst && Number.isFinite(best) ? best : null;
  }

  private bound(objective: Objective, end: 'best' | 'worst'): number {
    if (isFigure(objective)) return this.design.bill.totals[objective]!;
    if (objective === 'losses') {
      const loss = this.outcomes[0]?.loss_mean_W ?? null;
      if (loss !== null) return yearOf(loss);
      return end === 'best' ? 0 : Number.POSITIVE_INFINITY;
    }
    if (objective === 'headroom') return this.headroom(end);
    const of = this.design.draws.length;
    const failures = this.samples - this.survived;
    return (end === 'best' ? of - failures : this.survived) / of;
  }

  /** Whatever situation comes next can only be tighter; of a design that passes none is below its limit. */
  private headroom(end: 'best' | 'worst'): number {
    const least = Math.min(...this.outcomes.map(tightest));
    return end === 'best' || this.outcomes.length === this.asked.situations.length ? least : 0;
  }
}

/** Situations that a course has been through. */
export function throughOf(course: Course, situations: readonly Situation[]): readonly Situation[] {
  return situations.slice(0, course.outcomes.length);
}
