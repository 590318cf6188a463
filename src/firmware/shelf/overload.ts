/**
 * What a shelf may bear beyond its rating, and how long. Two forms, either or both:
 *
 *   accumulator  dθ/dt = ((i/I_r)² − 1)/T_ov, not below 0; trips at θ = 1. From rest at y = i/I_r after T_ov/(y² − 1).
 *   table        rows of level L, longest stay t and duty D: each keeps an allowance b that fills by the time above L
 *                and drains by D/(1 − D) of the time below; trips at b = t. So one stay may last t, and stays that
 *                repeat may fill the share D of the time.
 */
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';

interface OverloadRow {
  readonly level: number;
  readonly hold_s: number;
  readonly drain: number;
}

/** Rate at which an allowance with this duty drains while it is not used. */
export function drainOf(duty: number): number {
  return duty < 1 ? duty / (1 - duty) : Number.POSITIVE_INFINITY;
}

function rowsOf(s: ShelfValues): OverloadRow[] {
  const rows = [
    [s.overload_level_1_ratio, s.overload_hold_1_s, s.overload_duty_1_ratio],
    [s.overload_level_2_ratio, s.overload_hold_2_s, s.overload_duty_2_ratio],
    [s.overload_level_3_ratio, s.overload_hold_3_s, s.overload_duty_3_ratio],
    [s.overload_level_4_ratio, s.overload_hold_4_s, s.overload_duty_4_ratio],
  ] as const;
  return rows
    .filter(([level]) => level > 0)
    .map(([level, hold_s, duty]) => ({ level, hold_s, drain: drainOf(duty) }));
}

export class Overload {
  /** Accumulator; 1 trips. */
  heat = 0;
  /** Lowest current over rated at which anything counts; Infinity where nothing does. */
  readonly least: number;
  private readonly time_s: number;
  private readonly rows: readonly OverloadRow[];
  private readonly spent_s: Float64Array;

  constructor(shelf: ShelfValues) {
    this.time_s = shelf.overload_time_s;
    this.rows = rowsOf(shelf);
    this.spent_s = new Float64Array(this.rows.length);
    this.least = Math.min(
      this.time_s > 0 ? 1 : Number.POSITIVE_INFINITY,
      ...this.rows.map(({ level }) => level),
    );
  }

  /** Something is still counted up. */
  isWarm(): boolean {
    return this.heat > 0 || this.spent_s.some((b) => b > 0);
  }

  /** Counts `dt_s` at current y over rated. Returns what trips, in words, or null. */
  advance(y: number, dt_s: number): string | null {
    if (this.time_s > 0) {
      this.heat = Math.max(0, this.heat + (dt_s * (y * y - 1)) / this.time_s);
      if (this.heat >= 1) return `overload: its accumulator is full at ${(100 * y).toFixed(0)} % of rated`;
    }
    for (let r = 0; r < this.rows.length; r++) {
      const { level, hold_s, drain } = this.rows[r]!;
      const b = this.spent_s[r]!;
      this.spent_s[r] = y > level ? b + dt_s : Math.max(0, b - drain * dt_s);
      if (y <= level || this.spent_s[r]! < hold_s - dt_s / 2) continue;
      return `overload: above ${(100 * level).toFixed(0)} % for its ${(1e3 * hold_s).toFixed(1)} ms`;
    }
    return null;
  }
}
