/** The lowest value of a smooth function of frequency: over points that are known, then between those beside the lowest. */

export interface Lowest {
  readonly frequency_Hz: number;
  readonly value: number;
}

/** Valleys that are looked into: the lowest, and others that are within this of it. */
const alike = 1.25;
const most = 3;
/** Parabolas through three points, each moving to the lowest of what is then known. */
const turns = 5;

export function lowestOf(of: (frequency_Hz: number) => number, known: readonly Lowest[]): Lowest {
  const valueAt = (k: number): number => known[k]?.value ?? Number.POSITIVE_INFINITY;
  const valleys = known
    .map((point, k) => ({ point, k }))
    .filter(({ point, k }) => point.value <= valueAt(k - 1) && point.value < valueAt(k + 1))
    .sort((a, b) => a.point.value - b.point.value);
  const limit = valleys[0]!.point.value + (alike - 1) * Math.abs(valleys[0]!.point.value);
  return valleys
    .filter(({ point }) => point.value <= limit)
    .slice(0, most)
    .map(({ k, point }) => {
      const [before, after] = [known[k - 1], known[k + 1]];
      return before === undefined || after === undefined ? point : within(of, before, point, after);
    })
    .reduce((least, one) => (one.value < least.value ? one : least));
}

function within(of: (frequency_Hz: number) => number, before: Lowest, middle: Lowest, after: Lowest): Lowest {
  let [a, b, c] = [before, middle, after];
  for (let turn = 0; turn < turns; turn++) {
    const frequency_Hz = vertex(a, b, c);
    if (!(frequency_Hz > a.frequency_Hz && frequency_Hz < c.frequency_Hz) || frequency_Hz === b.frequency_Hz)
      break;
    const one = { frequency_Hz, value: of(frequency_Hz) };
    const [low, high] = frequency_Hz < b.frequency_Hz ? [one, b] : [b, one];
    if (low.value < high.value) [b, c] = [low, high];
    else [a, b] = [low, high];
  }
  return b;
}

/** Frequency of the lowest point of the parabola through three; between the outer ones where it opens upwards. */
function vertex(a: Lowest, b: Lowest, c: Lowest): number {
  const [p, q] = [b.frequency_Hz - a.frequency_Hz, b.frequency_Hz - c.frequency_Hz];
  const [r, s] = [p * (b.value - c.value), q * (b.value - a.value)];
  return b.frequency_Hz - (p * r - q * s) / (2 * (r - s));
}
