import { medianInterval_s, type Series } from '../../samples/series.ts';

/** Fewer bends, or bends between fewer slopes that differ, say nothing of how a recording was made. */
const fewestBends = 50;
const fewestSlopes = 20;
/** Samples looked at. */
const mostSamples = 200_000;
/** Share of the stretches that are as long as most, and of those that are whole numbers of them. */
const alike = 0.5;
const regular = 0.95;
/** Of the samples between bends that move by more than rounding, so many lie on a line. */
const onLine = 0.9;
/** Decimals that values may be written with. */
const mostDecimals = 6;
/** Rises of fewer digits are no slope. */
const leastRise = 4;

/**
 * How often a recording that was filled up by straight lines really has a reading [s]: values bend at regular places and lie
 * on a line between them, within the rounding of their digits. null where they do not. A load's own ramps bend between
 * few slopes, or at places of their own.
 */
export function straightRenewal_s({ time_s, power_W }: Series): number | null {
  const values = power_W.subarray(0, mostSamples);
  const digit_W = digitOf(values);
  const bends: number[] = [];
  const slopes = new Set<number>();
  let [moving, straight] = [0, 0];
  for (let i = 1; i + 1 < values.length; i++) {
    const [before, behind] = [values[i]! - values[i - 1]!, values[i + 1]! - values[i]!];
    // Each of three values is off by half a digit at most, the middle one counts twice.
    const isBend = Math.abs(behind - before) > 2.000001 * digit_W;
    if (Math.max(Math.abs(before), Math.abs(behind)) > leastRise * digit_W) {
      moving++;
      if (!isBend) straight++;
    }
    if (!isBend) continue;
    slopes.add(Math.round(behind / digit_W));
    // Where a reading lies between two samples, both bend.
    if (bends.at(-1) !== i - 1) bends.push(i);
  }
  if (bends.length < fewestBends || slopes.size < fewestSlopes) return null;
  const gaps = bends.slice(1).map((at, k) => at - bends[k]!);
  const usual = gaps.toSorted((a, b) => a - b)[gaps.length >> 1]!;
  if (usual < 2 || straight < onLine * moving * betweenOf(usual) || !areRegular(gaps, usual)) return null;
  return usual * medianInterval_s(time_s);
}

/** Share of the samples that lie between bends, of which there are two where a reading lies between two samples. */
function betweenOf(usual: number): number {
  return usual > 3 ? (usual - 2) / usual : (usual - 1) / usual;
}

function areRegular(gaps: readonly number[], usual: number): boolean {
  const isWhole = (gap: number): boolean => {
    const times = Math.max(1, Math.round(gap / usual));
    return Math.abs(gap - times * usual) <= (usual > 3 ? times : 0);
  };
  const whole = gaps.filter(isWhole);
  const single = whole.filter((gap) => gap < 1.5 * usual);
  return single.length >= alike * gaps.length && whole.length >= regular * gaps.length;
}

/** What the last digit of the values is worth [W]; next to nothing where they are not rounded. */
function digitOf(values: Float64Array): number {
  for (let decimals = 0, per = 1; decimals <= mostDecimals; decimals++, per *= 10)
    if (values.every((value) => Math.abs(value * per - Math.round(value * per)) < 1e-6)) return 1 / per;
  return 1e-9 * values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
