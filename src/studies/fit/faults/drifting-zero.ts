/**
 * A zero that does not stand still: it drifts, linear in time, or wanders slowly, as the longest waves over the recording.
 * Found together with what the fitted parameters do, for a fit bends its values for a drift.
 */
import { Matrix, solve } from 'ml-matrix';
import { type Beside, type Hypothesis, withColumn } from './fault.ts';
import type { MisfitCase } from './left-without.ts';

/** Half waves over the recording, the longest: what is faster is no zero. */
const mostWaves = 4;

export function driftingZero(of: MisfitCase, beside: Beside, c: number): Hypothesis[] {
  const { channel: path, time_s, values } = beside.columns[c]!;
  const [first_s, last_s] = [time_s[0]!, time_s.at(-1)!];
  const along = time_s.map((t) => (t - first_s) / (last_s - first_s));
  const waves = Array.from({ length: mostWaves + 1 }, (_, k) => along.map((x) => Math.cos(Math.PI * k * x)));
  const [line, wave] = [[waves[0]!, along], waves].map((shapes) => shapedAs(of, beside, c, shapes));
  const without = (moved: Float64Array) => ({
    without: withColumn(beside, c, { time_s, values: values.map((m, i) => m - moved[i]!) }),
    moved_s: null,
  });
  return [
    { fault: { kind: 'drift', path, by: line!.at(-1)! - line![0]! }, ...without(line!) },
    { fault: { kind: 'wander', path, rms: deviationOf(wave!), waves: mostWaves }, ...without(wave!) },
  ];
}

/** What of a channel lies along some shapes, by least squares over all channels together with what the fitted parameters do. */
function shapedAs(
  { residuals: { points }, sensitivities }: MisfitCase,
  { columns, simulated, noise }: Beside,
  c: number,
  shapes: readonly Float64Array[],
): Float64Array {
  const [own, fitted] = [shapes.length, sensitivities.columns];
  const A = Matrix.zeros(points.length, own + fitted);
  const off = points.map(({ channel, row }, i) => {
    const e = (columns[channel]!.values[row]! - simulated[channel]![row]!) / noise[channel]!;
    if (Number.isNaN(e)) return 0;
    for (let k = 0; channel === c && k < own; k++) A.set(i, k, shapes[k]![row]! / noise[c]!);
    for (let j = 0; j < fitted; j++) A.set(i, own + j, sensitivities.get(i, j));
    return e;
  });
  const parts = solve(A.transpose().mmul(A), A.transpose().mmul(Matrix.columnVector(off)), true).to1DArray();
  return columns[c]!.values.map((_, i) => shapes.reduce((sum, shape, k) => sum + parts[k]! * shape[i]!, 0));
}

function deviationOf(values: Float64Array): number {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
}
