/** How much warmer a joint gets than the bar beside it, and whether it comes to rest at all. */
import { formatQuantity } from '../../base/quantity.ts';
import { jointRise_K } from '../../slow/joint-heat.ts';
import { type Case, worst } from '../record/case.ts';
import { overHeat } from '../record/long-enough.ts';
import { namedFew } from '../words/named-few.ts';
import { warmJoints } from './copper.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

/** Rise of the worst joint above its bar, steady or at its highest through events; what its bar has gained by the end of the run lies in one joint. */
export function readJointHeat(c: Case): Reading {
  const all = warmJoints(c);
  const unrated = all.flatMap(({ owner, warm }) => (warm === null ? [owner] : []));
  const joints = all.flatMap(({ owner, values, warm, joint_ohm }) => {
    if (warm === null) return [];
    const { cold_K } = jointRise_K(values.joint_thermal_resistance_K_per_W, joint_ohm, warm.rms);
    return [{ owner, warm, joint_ohm, cold_K, thermal_s: values.thermal_time_s }];
  });
  const most = worst(joints, ({ warm }) => warm.value);
  if (most === null && unrated.length > 0) return notShown(uncooled(unrated));
  if (most === null) return cannotArise('no bar states the resistance and the cooling of its joints');
  const what = `a joint of ${formatQuantity(most.joint_ohm, 'resistance', 3)} at ${most.warm.rms.toFixed(0)} A RMS`;
  const { cold_K } = most;
  const { value, time_s } = most.warm;
  const isEndless = value === Number.POSITIVE_INFINITY;
  const reason = isEndless
    ? `${what} runs away: its resistance grows faster with heat than it cools (${cold_K.toFixed(0)} K without that)`
    : `${what}, ${time_s === null ? 'sustained' : 'at its warmest, not yet for good'}`;
  const reading = overHeat(c, most.thermal_s, {
    value: isEndless ? cold_K : value,
    node: most.owner,
    time_s,
    reason,
  });
  if (unrated.length === 0 || reading.unsettled !== undefined) return reading;
  return unsettled(reading, uncooled(unrated), 'worse');
}

function uncooled(who: readonly string[]): string {
  return `${namedFew(who, 3)} states no cooling of its joints`;
}
