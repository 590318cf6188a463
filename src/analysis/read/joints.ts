/** How much warmer a joint gets than the bar beside it, and whether it comes to rest at all. */
import { formatQuantity } from '../../base/quantity.ts';
import { barOf } from '../../slow/bar-of.ts';
import { jointRise_K } from '../../slow/joint-heat.ts';
import { type Case, worst } from '../record/case.ts';
import { harderSquare } from '../record/going-on.ts';
import { overHeat } from '../record/long-enough.ts';
import { namedFew } from '../words/named-few.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

/** Rise of the worst joint above its bar, steady; what its bar has gained by the end of the run lies in one joint. */
export function readJointHeat(c: Case): Reading {
  const unrated: string[] = [];
  const joints = c.result.recording.channels.flatMap(({ kind, owner, id }) => {
    if (kind !== 'bar-current') return [];
    const rms = harderSquare(c, id)?.rms;
    const bar = barOf(c.scenario, owner);
    if (rms === undefined || !(bar.joint_resistance_ohm > 0)) return [];
    if (!(bar.joint_thermal_resistance_K_per_W > 0)) {
      unrated.push(owner);
      return [];
    }
    const end = c.result.bars.find(({ id: bar }) => bar === owner);
    const aged_ohm = end === undefined ? 0 : end.resistance_ohm - bar.resistance_ohm;
    const joint_ohm = bar.joint_resistance_ohm + Math.max(0, aged_ohm);
    const rise = jointRise_K(bar.joint_thermal_resistance_K_per_W, joint_ohm, rms);
    return [{ owner, rms, joint_ohm, rise, thermal_s: bar.thermal_time_s }];
  });
  const most = worst(joints, ({ rise }) => rise.steady_K ?? Number.POSITIVE_INFINITY);
  if (most === null && unrated.length > 0) return notShown(uncooled(unrated));
  if (most === null) return cannotArise('no bar states the resistance and the cooling of its joints');
  const what = `a joint of ${formatQuantity(most.joint_ohm, 'resistance', 3)} at ${most.rms.toFixed(0)} A RMS`;
  const { steady_K, cold_K } = most.rise;
  const reason =
    steady_K === null
      ? `${what} runs away: its resistance grows faster with heat than it cools (${cold_K.toFixed(0)} K without that)`
      : `${what}, sustained`;
  const reading = overHeat(c, most.thermal_s, { value: steady_K ?? cold_K, node: most.owner, reason });
  if (unrated.length === 0 || reading.unsettled !== undefined) return reading;
  return unsettled(reading, uncooled(unrated), 'worse');
}

function uncooled(who: readonly string[]): string {
  return `${namedFew(who, 3)} states no cooling of its joints`;
}
