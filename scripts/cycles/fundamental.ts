/** Amplitude and frequency of the first harmonic of what was recorded, over its last whole turns; null where it does not swing. */

export interface Swing {
  readonly frequency_Hz: number;
  readonly amplitude: number;
}

/** A turn counts where it passes this share of half the range, on both sides of the middle. */
const passed_ratio = 0.3;

/** `floor`: swings smaller than this count as rest. Values may be unevenly spaced; each stands until the next. */
export function fundamentalOf(
  time_s: readonly number[],
  value: readonly number[],
  floor: number,
): Swing | null {
  const [low, high] = [least(value), -least(value.map((x) => -x))];
  if (high - low < 2 * floor) return null;
  const middle = (low + high) / 2;
  const reach = (passed_ratio * (high - low)) / 2;
  const ups: number[] = [];
  let isBelow = false;
  value.forEach((x, k) => {
    if (x < middle - reach) isBelow = true;
    if (x > middle + reach && isBelow) {
      isBelow = false;
      ups.push(k);
    }
  });
  if (ups.length < 4) return null;
  const [from, to] = [ups[0]!, ups.at(-1)!];
  const span_s = time_s[to]! - time_s[from]!;
  const frequency_Hz = (ups.length - 1) / span_s;
  let [re, im] = [0, 0];
  for (let k = from; k < to; k++) {
    const [a, b] = [2 * Math.PI * frequency_Hz * time_s[k]!, 2 * Math.PI * frequency_Hz * time_s[k + 1]!];
    // ∫ (x − middle) exp(−jθ) dθ over the step.
    re += (value[k]! - middle) * (Math.sin(b) - Math.sin(a));
    im += (value[k]! - middle) * (Math.cos(b) - Math.cos(a));
  }
  return { frequency_Hz, amplitude: Math.hypot(re, im) / (Math.PI * frequency_Hz * span_s) };
}

function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}
