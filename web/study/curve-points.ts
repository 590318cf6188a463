/** Which points of a curve are drawn: up to half the sampling rate, above a floor, the phase within half a turn of 0. */
import type { ResponseReport } from '../../src/studies/response/report.ts';

type Curve = ResponseReport['curves'][number];

export interface CurvePoint {
  readonly frequency_Hz: number;
  /** Null where it lies below the floor, or is 0. */
  readonly gain_dB: number | null;
  readonly phase_deg: number;
}

/** As far below its highest value as a gain is drawn, and down to where it is drawn in any case [dB]: further down only rounding is left to see. */
const depth_dB = 100;
const always_dB = -60;

/** The frequency up to which a curve is drawn: where nothing is sampled, to its end. */
export function endOf({ frequency_Hz, half_sampling_Hz }: Curve): number {
  const last = frequency_Hz.at(-1)!;
  // At least two points, so that there is an axis to draw along.
  return Math.max(frequency_Hz[1]!, Math.min(last, half_sampling_Hz ?? last));
}

/** The lowest gain that is drawn [dB]; null where all of a curve is. */
export function gainFloor(curve: Curve): number | null {
  const end = endOf(curve);
  const gains = curve.gain_dB.filter((_, k) => curve.frequency_Hz[k]! <= end);
  const known = gains.filter((gain) => gain !== null);
  const floor = Math.min(always_dB, Math.max(...known) - depth_dB);
  return known.length === gains.length && Math.min(...known) >= floor ? null : floor;
}

export function shownPoints(curve: Curve): CurvePoint[] {
  const { frequency_Hz, gain_dB, phase_deg } = curve;
  const floor = gainFloor(curve) ?? Number.NEGATIVE_INFINITY;
  const end = endOf(curve);
  return frequency_Hz
    .filter((f) => f <= end)
    .map((f, k) => {
      const gain = gain_dB[k] ?? null;
      return {
        frequency_Hz: f,
        gain_dB: gain === null || gain < floor ? null : gain,
        phase_deg: phase_deg[k]!,
      };
    });
}

/** A place of a phase curve; null where the line is interrupted. */
export interface PhasePoint {
  readonly frequency_Hz: number;
  readonly phase_deg: number | null;
}

/** The phase within ±180°: where it leaves on one side the line ends there, and begins anew on the other. */
export function wrapped(points: readonly CurvePoint[]): PhasePoint[] {
  const turn = (deg: number): number => Math.round(deg / 360);
  return points.flatMap(({ frequency_Hz, phase_deg }, k): PhasePoint[] => {
    const here = { frequency_Hz, phase_deg: phase_deg - 360 * turn(phase_deg) };
    const before = points[k - 1];
    if (before === undefined) return [here];
    const steps = turn(phase_deg) - turn(before.phase_deg);
    if (steps === 0) return [here];
    const broken = { frequency_Hz, phase_deg: null };
    // More than one turn between two points: nothing between them is known.
    if (Math.abs(steps) > 1) return [broken, here];
    const edge = 360 * Math.max(turn(phase_deg), turn(before.phase_deg)) - 180;
    const along = (edge - before.phase_deg) / (phase_deg - before.phase_deg);
    const at = before.frequency_Hz * (frequency_Hz / before.frequency_Hz) ** along;
    const leaves = 180 * Math.sign(steps);
    return [
      { frequency_Hz: at, phase_deg: leaves },
      { frequency_Hz: at, phase_deg: null },
      { frequency_Hz: at, phase_deg: -leaves },
      here,
    ];
  });
}
