/** What each bar and its joints carry and how warm that gets them: what the limits of heat read, bar by bar. */
import { steadyRise_K } from '../../copper/rating.ts';
import type { BarValues } from '../../scenario/parameters/bar.ts';
import { barHeat } from '../../slow/bar-heat.ts';
import { barOf } from '../../slow/bar-of.ts';
import { jointHeat, jointRise_K } from '../../slow/joint-heat.ts';
import type { Case } from '../record/case.ts';
import { harderSquare } from '../record/going-on.ts';
import { type Warmest, warmest } from './heat.ts';

export interface CopperBar {
  /** Section segment (`A.S1-T1`), rack segment (`rack.1-2`), link bar or tie. */
  readonly bar: string;
  /** RMS current over the window, or over what goes on after its events where that is higher. */
  readonly rms_A: number;
  /** What heats it by 50 K; null: not stated. */
  readonly rated_A: number | null;
  /** Rise over its air, as `bar-heat` reads it: sustained, or at its warmest through events; null: not rated. */
  readonly rise_K: number | null;
  /** Rise of its worst joint over the bar, as `joint-heat` reads it; null: not stated, or no end. */
  readonly joint_K: number | null;
  /** Its joint has no end: its resistance grows faster with the heat than it cools. */
  readonly runs_away: boolean;
}

export interface Copper {
  readonly bars: readonly CopperBar[];
}

/** A bar that carried a current that was recorded. */
export interface WarmBar {
  readonly owner: string;
  readonly values: BarValues;
  /** null: not rated. */
  readonly warm: Warmest | null;
}

/** null of `warm` where a bar states no current that heats it by 50 K. */
export function warmBars(c: Case): readonly WarmBar[] {
  return barChannels(c).flatMap(({ owner, id }) => {
    const values = barOf(c.scenario, owner);
    const rated_A = values.rated_current_A;
    const warm = warmest(
      c,
      id,
      (rms) => steadyRise_K(rms, rated_A),
      (rms) => barHeat(values, rms),
    );
    return warm === null ? [] : [{ owner, values, warm: rated_A > 0 ? warm : null }];
  });
}

/** The worst joint of a bar; what the bar has gained by the end of the run lies in it. */
export interface WarmJoint extends WarmBar {
  readonly joint_ohm: number;
}

/** Of bars that state the resistance of their joints; null of `warm` where one states no cooling. */
export function warmJoints(c: Case): readonly WarmJoint[] {
  return barChannels(c).flatMap(({ owner, id }): WarmJoint[] => {
    const values = barOf(c.scenario, owner);
    const { joint_thermal_resistance_K_per_W: thermal_K_per_W, thermal_time_s } = values;
    if (!(values.joint_resistance_ohm > 0)) return [];
    const end = c.result.bars.find(({ id: bar }) => bar === owner);
    const aged_ohm = end === undefined ? 0 : end.resistance_ohm - values.resistance_ohm;
    const joint_ohm = values.joint_resistance_ohm + Math.max(0, aged_ohm);
    if (!(thermal_K_per_W > 0)) return [{ owner, values, joint_ohm, warm: null }];
    const warm = warmest(
      c,
      id,
      (rms) => jointRise_K(thermal_K_per_W, joint_ohm, rms).steady_K ?? Number.POSITIVE_INFINITY,
      (rms) => jointHeat({ thermal_K_per_W, joint_ohm, time_s: thermal_time_s }, rms),
    );
    return warm === null ? [] : [{ owner, values, joint_ohm, warm }];
  });
}

export function copperOf(c: Case): Copper {
  const joints = new Map(warmJoints(c).map(({ owner, warm }) => [owner, warm?.value ?? null]));
  const warm = new Map(warmBars(c).map((bar) => [bar.owner, bar.warm?.value ?? null]));
  return {
    bars: barChannels(c).flatMap(({ owner, id }): CopperBar[] => {
      const rms_A = harderSquare(c, id)?.rms;
      if (rms_A === undefined || !Number.isFinite(rms_A)) return [];
      const joint_K = joints.get(owner) ?? null;
      const rated_A = barOf(c.scenario, owner).rated_current_A;
      return [
        {
          bar: owner,
          rms_A,
          rated_A: rated_A > 0 ? rated_A : null,
          rise_K: warm.get(owner) ?? null,
          joint_K: joint_K !== null && Number.isFinite(joint_K) ? joint_K : null,
          runs_away: joint_K === Number.POSITIVE_INFINITY,
        },
      ];
    }),
  };
}

function barChannels({ result }: Case): { readonly owner: string; readonly id: string }[] {
  return result.recording.channels.filter(({ kind }) => kind === 'bar-current');
}
