import type { LaidCurves } from './fit-report.ts';
import type { Residuals } from './residuals.ts';

/** Stretches of time of which one sample each is kept. */
const most = 500;

/** What the sensors show at every point: with the values found and with the present ones. */
export interface ShownValues {
  readonly found: Float64Array;
  readonly present: Float64Array;
}

/** A channel laid over the model: of each stretch the sample that is furthest from what was found, so that no peak is lost. */
export function laidCurves(
  points: Residuals['points'],
  { found, present }: ShownValues,
  channel: number,
): LaidCurves {
  const own = points.flatMap((point, i) => (point.channel === channel ? [i] : []));
  const count = Math.min(most, own.length);
  const off = (i: number): number => Math.abs(points[i]!.value - found[i]!);
  const kept = Array.from({ length: count }, (_, k) => {
    const stretch = own.slice(
      Math.floor((k * own.length) / count),
      Math.floor(((k + 1) * own.length) / count),
    );
    return stretch.reduce((a, b) => (off(b) > off(a) ? b : a));
  });
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  return {
    time_s: kept.map((i) => points[i]!.time_s),
    measured: kept.map((i) => points[i]!.value),
    before: kept.map((i) => finite(present[i]!)),
    after: kept.map((i) => finite(found[i]!)),
  };
}
