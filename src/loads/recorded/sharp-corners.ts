import type { Series } from '../../samples/series.ts';

/** A change of level at an instant. */
interface Step {
  readonly at_s: number;
  readonly level_W: number;
}

/**
 * Sharp reading of a recording: each sample is the mean of its cell (from midway to the sample before to midway to
 * the sample after), so the energy is that of the straight lines. Levels change in steps at the cells' bounds. A
 * sample that lies between its neighbours is taken for a cell in which the load stepped from the one to the other,
 * at the instant that keeps the cell's energy; of two such samples in a row the first counts. Corners come in
 * pairs: a step becomes a straight edge of `edge_s` about its instant, shorter where steps are closer than that.
 */
export function sharpCorners(series: Series, edge_s: number): Series {
  const steps = stepsOf(series);
  const { time_s, power_W } = series;
  const t: number[] = [time_s[0]!];
  const p: number[] = [power_W[0]!];
  const end_s = time_s[time_s.length - 1]!;
  for (let k = 0; k < steps.length; k++) {
    const { at_s, level_W } = steps[k]!;
    const before_s = at_s - (k === 0 ? 2 * time_s[0]! - at_s : steps[k - 1]!.at_s);
    const after_s = (k === steps.length - 1 ? 2 * end_s - at_s : steps[k + 1]!.at_s) - at_s;
    const half_s = 0.5 * Math.min(edge_s, before_s, after_s);
    t.push(at_s - half_s, at_s + half_s);
    p.push(p[p.length - 1]!, level_W);
  }
  t.push(end_s);
  p.push(p[p.length - 1]!);
  return { time_s: Float64Array.from(t), power_W: Float64Array.from(p) };
}

function stepsOf({ time_s, power_W }: Series): Step[] {
  const n = time_s.length;
  const bound = (i: number): number => 0.5 * (time_s[i]! + time_s[i + 1]!);
  const steps: Step[] = [];
  let resolved = false;
  for (let i = 1; i < n; i++) {
    const [before, here] = [power_W[i - 1]!, power_W[i]!];
    const next = i + 1 < n ? power_W[i + 1]! : here;
    if (!resolved && (here - before) * (next - here) > 0) {
      const from_s = bound(i - 1);
      const length_s = bound(i) - from_s;
      steps.push({ at_s: from_s + ((next - here) / (next - before)) * length_s, level_W: next });
      resolved = true;
    } else {
      if (!resolved && here !== before) steps.push({ at_s: bound(i - 1), level_W: here });
      resolved = false;
    }
  }
  return steps;
}
