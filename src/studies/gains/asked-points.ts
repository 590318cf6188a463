/**
 * Points of a map asked whether they are acceptable: as the scenario has its numbers, then in each circumstance. A point that
 * fails is asked no further. One circumstance after another, so that what the points have in common is made once.
 */
import type { Change } from '../../scenario/scenario.ts';
import type { RunTrials, Trial } from '../trials/trial.ts';
import { lacks } from './accept.ts';
import type { GainsCell } from './cell.ts';
import type { Circumstance } from './circumstances.ts';
import type { GainsPlan } from './plan.ts';

export interface Lack {
  readonly words: string;
  /** What it fails in; null where it fails as it is. */
  readonly circumstance: Circumstance | null;
}

export class AskedPoints {
  private readonly plan: GainsPlan;
  private readonly run: RunTrials;
  /** What some point has failed in. */
  private readonly failing = new Set<Circumstance>();

  constructor(plan: GainsPlan, run: RunTrials) {
    this.plan = plan;
    this.run = run;
  }

  /** What each point lacks as it is; null where it is acceptable. */
  async asTheyAre(points: readonly (readonly Change[])[]): Promise<(Lack | null)[]> {
    return this.ask(points, null);
  }

  /** The same in every circumstance, of points that are acceptable as they are; `only`: in those that some point has failed in. */
  async inAll(points: readonly (readonly Change[])[], only: 'all' | 'failing'): Promise<(Lack | null)[]> {
    const found: (Lack | null)[] = points.map(() => null);
    for (const circumstance of this.plan.circumstances) {
      if (only === 'failing' && !this.failing.has(circumstance)) continue;
      const left = [...points.keys()].filter((k) => found[k] === null);
      const answers = await this.ask(
        left.map((k) => points[k]!),
        circumstance,
      );
      for (const [n, answer] of answers.entries()) {
        if (answer !== null) this.failing.add(circumstance);
        found[left[n]!] = answer;
      }
    }
    return found;
  }

  /** The cells of one point in every circumstance. */
  async cellsOf(point: readonly Change[]): Promise<readonly GainsCell[]> {
    return this.run(this.plan.circumstances.map((circumstance) => this.trial(point, circumstance)));
  }

  private async ask(
    points: readonly (readonly Change[])[],
    circumstance: Circumstance | null,
  ): Promise<(Lack | null)[]> {
    if (points.length === 0) return [];
    const cells = await this.run(points.map((point) => this.trial(point, circumstance)));
    return cells.map((cell) => {
      const words = lacks(cell, this.plan.acceptance);
      return words === null ? null : { words, circumstance };
    });
  }

  private trial(point: readonly Change[], circumstance: Circumstance | null): Trial<'cell'> {
    const { asked } = this.plan;
    const { changes, state_count, load_W } = circumstance ?? {
      changes: [],
      state_count: 0,
      load_W: this.plan.load_W,
    };
    const own = changes.length - state_count;
    return {
      kind: 'cell',
      scenario: asked.scenario,
      // Events come last, for the last ones are the state.
      changes: [...asked.changes, ...changes.slice(0, own), ...point, ...changes.slice(own)],
      load_W,
      state_count,
    };
  }
}
