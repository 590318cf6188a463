/**
 * Points of a map asked whether they are acceptable: as the scenario has its numbers, then with each sample of the tolerances. A
 * point that fails is asked no further. Sample after sample, so that what the points have in common is made once.
 */
import type { Change } from '../../scenario/scenario.ts';
import type { RunTrials, Trial } from '../trials/trial.ts';
import { lacks } from './accept.ts';
import type { GainsCell } from './cell.ts';
import type { GainsPlan } from './plan.ts';

export interface Lack {
  readonly words: string;
  /** The sample that it fails with, from 0; null where it fails as it is. */
  readonly sample: number | null;
}

export class AskedPoints {
  private readonly plan: GainsPlan;
  private readonly run: RunTrials;
  /** Samples that some point has failed with. */
  private readonly failing = new Set<number>();

  constructor(plan: GainsPlan, run: RunTrials) {
    this.plan = plan;
    this.run = run;
  }

  private get samples(): readonly (readonly Change[])[] {
    return this.plan.tolerances?.samples ?? [];
  }

  /** What each point lacks as it is; null where it is acceptable. */
  async asTheyAre(points: readonly (readonly Change[])[]): Promise<(Lack | null)[]> {
    return this.ask(points, null);
  }

  /** The same with every sample, of points that are acceptable as they are; `only`: those that some point has failed with. */
  async withSamples(
    points: readonly (readonly Change[])[],
    only: 'all' | 'failing',
  ): Promise<(Lack | null)[]> {
    const found: (Lack | null)[] = points.map(() => null);
    for (const [sample] of this.samples.entries()) {
      if (only === 'failing' && !this.failing.has(sample)) continue;
      const left = [...points.keys()].filter((k) => found[k] === null);
      const answers = await this.ask(
        left.map((k) => points[k]!),
        sample,
      );
      for (const [n, answer] of answers.entries()) {
        if (answer !== null) this.failing.add(sample);
        found[left[n]!] = answer;
      }
    }
    return found;
  }

  /** The cells of one point with every sample. */
  async cellsOf(point: readonly Change[]): Promise<readonly GainsCell[]> {
    return this.run(this.samples.map((_, sample) => this.trial(point, sample)));
  }

  private async ask(points: readonly (readonly Change[])[], sample: number | null): Promise<(Lack | null)[]> {
    if (points.length === 0) return [];
    const cells = await this.run(points.map((point) => this.trial(point, sample)));
    return cells.map((cell) => {
      const words = lacks(cell, this.plan.acceptance);
      return words === null ? null : { words, sample };
    });
  }

  private trial(point: readonly Change[], sample: number | null): Trial<'cell'> {
    const { asked, load_W } = this.plan;
    const drawn = sample === null ? [] : this.samples[sample]!;
    return {
      kind: 'cell',
      scenario: asked.scenario,
      changes: [...asked.changes, ...drawn, ...point],
      load_W,
    };
  }
}
