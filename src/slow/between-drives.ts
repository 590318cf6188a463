/**
 * The drive while batteries take part of what they took in another run of the same stretch. Charging adds a current d that stands
 * still beside the load's own, so that with the share s of it
 *
 *   mean = m_0 + s d,   mean square = q_0 + s (q_1 − q_0) − s (1 − s) d²,   d = m_1 − m_0
 *
 * which is exact for a constant d, and is either run at its end. Trays and banks keep what each run shows, in proportion.
 */
import type { BarDrive, Drive } from './drive.ts';

/** `share`: 0 where nothing charges, 1 as in `charging`. */
export function betweenDrives(resting: Drive, charging: Drive, share: number): Drive {
  if (share <= 0) return resting;
  if (share >= 1) return charging;
  return {
    ...resting,
    bars: resting.bars.map((bar) => {
      const other = charging.bars.find(({ id }) => id === bar.id);
      return other === undefined ? bar : barBetween(bar, other, share);
    }),
    batteries: resting.batteries.map((one) => {
      const other = charging.batteries.find(({ id }) => id === one.id);
      return other === undefined
        ? one
        : { ...one, power_W: one.power_W + share * (other.power_W - one.power_W) };
    }),
  };
}

/** The drive with charging where the one without has moved since both were run: by as much. */
export function movedWith(charging: Drive, before: Drive, after: Drive): Drive {
  return {
    ...charging,
    bars: charging.bars.map((bar) => {
      const [was, is] = [before, after].map(({ bars }) => bars.find(({ id }) => id === bar.id));
      if (was === undefined || is === undefined) return bar;
      const square = bar.rms_A ** 2 + is.rms_A ** 2 - was.rms_A ** 2;
      return { ...bar, mean_A: bar.mean_A + is.mean_A - was.mean_A, rms_A: Math.sqrt(Math.max(0, square)) };
    }),
  };
}

function barBetween(bar: BarDrive, other: BarDrive, share: number): BarDrive {
  const d = other.mean_A - bar.mean_A;
  const [q0, q1] = [bar.rms_A ** 2, other.rms_A ** 2];
  const square = q0 + share * (q1 - q0) - share * (1 - share) * d * d;
  return { ...bar, mean_A: bar.mean_A + share * d, rms_A: Math.sqrt(Math.max(0, square)) };
}
