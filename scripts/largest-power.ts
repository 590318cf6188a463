/**
 * The largest constant power that a weak feeder carries at power factor 1, by simulation of the smallest cabinet, beside
 * E²/(2 |Z| (1 + cos θ)): node --import tsx scripts/largest-power.ts
 */
import { largestCarried, weak_VA } from '../tests/engine/weak-feeder.ts';

process.stdout.write('X/R    closed form    found          differs\n');
for (const ratio of [0, 1, 5, 20]) {
  const closed_W = weak_VA / (2 * (1 + Math.cos(Math.atan(ratio))));
  const { carried_W } = largestCarried(ratio);
  const differs = (100 * (carried_W / closed_W - 1)).toFixed(3);
  process.stdout.write(
    `${String(ratio).padEnd(7)}${(closed_W / 1e3).toFixed(3)} kW      ${(carried_W / 1e3).toFixed(3)} kW      ${differs} %\n`,
  );
}
