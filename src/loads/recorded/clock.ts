import { type DateOrder, readDateStamp } from './date-stamp.ts';
import { epochUnitOf, perSecond, type TimeUnit } from './time-unit.ts';

const number = /^([-+]?)(\d+)(?:[.,](\d*))?$/;
const day_s = 86400;

/**
 * Reads stamps as seconds after the first one read. Whole and broken part are kept apart and the first stamp is
 * taken off the whole part before anything is rounded: an epoch in nanoseconds keeps its nanoseconds.
 */
export class Clock {
  /** How stamps are written: a number in a unit, or a date and time. */
  readonly form: TimeUnit | 'date';
  /** A date and time without a zone was read (as UTC). */
  zoneless = false;
  /** Times of day without a date were read; days are counted on at midnight. */
  dayOnly = false;
  private readonly order: DateOrder | null;
  private origin: bigint | null = null;
  private originWhole = 0;
  private last_s = Number.NaN;

  constructor(form: TimeUnit | 'date', order: DateOrder | null = null) {
    this.form = form;
    this.order = order;
  }

  /** Seconds after the first stamp, or NaN where the cell is no stamp. */
  read(cell: string): number {
    return this.form === 'date' ? this.readDate(cell) : this.readNumber(cell.trim(), this.form);
  }

  /** First stamp in seconds from 1970, whole and broken part; null where time is relative or nothing was read. */
  get start(): { readonly whole_s: number; readonly part_s: number } | null {
    if (this.origin === null || this.dayOnly) return null;
    const per = this.form === 'date' ? 1 : perSecond[this.form];
    const whole = this.origin / BigInt(per);
    const part_s = Number(this.origin - whole * BigInt(per)) / per;
    if (this.form !== 'date' && epochUnitOf(Number(this.origin)) !== this.form) return null;
    return { whole_s: Number(whole), part_s };
  }

  private readNumber(cell: string, unit: TimeUnit): number {
    const parts = number.exec(cell);
    if (parts === null) {
      // 1.5e3 and the like: no epoch is written so, plain reading is exact enough.
      const value = /^[-+]?[\d.]+e[-+]?\d+$/i.test(cell) ? Number(cell) : Number.NaN;
      if (Number.isNaN(value)) return value;
      this.setOrigin(0n);
      return (value - this.originWhole) / perSecond[unit];
    }
    const digits = parts[2]!;
    // Short stamps are relative: kept as they are, so that what was written is what is read.
    if (digits.length < 9 && (this.origin === null || this.originWhole === 0)) {
      this.setOrigin(0n);
      return Number(cell.replace(',', '.')) / perSecond[unit];
    }
    const sign = parts[1] === '-' ? -1 : 1;
    const fraction = parts[3] === undefined || parts[3] === '' ? 0 : sign * Number(`0.${parts[3]}`);
    if (digits.length < 16) {
      // Whole numbers below 2^53 are exact as they are.
      const whole = sign * Number(digits);
      if (this.origin === null) this.setOrigin(BigInt(whole));
      if (this.originWhole < Number.MAX_SAFE_INTEGER) {
        return (whole - this.originWhole + fraction) / perSecond[unit];
      }
    }
    const whole = sign < 0 ? -BigInt(digits) : BigInt(digits);
    if (this.origin === null) this.setOrigin(whole);
    return (Number(whole - this.origin!) + fraction) / perSecond[unit];
  }

  private setOrigin(value: bigint): void {
    if (this.origin !== null) return;
    this.origin = value;
    this.originWhole = Number(value);
  }

  private readDate(cell: string): number {
    const stamp = readDateStamp(cell, this.order);
    if (stamp === null) return Number.NaN;
    if (stamp.dayOnly) {
      this.dayOnly = true;
      this.setOrigin(0n);
      return this.acrossMidnight(stamp.whole_s + stamp.part_s);
    }
    if (!stamp.zoned) this.zoneless = true;
    if (this.origin === null) this.setOrigin(BigInt(stamp.whole_s));
    return stamp.whole_s - this.originWhole + stamp.part_s;
  }

  /** The time of day on the day that lies nearest to the stamp before. */
  private acrossMidnight(time_s: number): number {
    const days = Number.isNaN(this.last_s) ? 0 : Math.round((this.last_s - time_s) / day_s);
    this.last_s = time_s + days * day_s;
    return this.last_s;
  }
}

/** Seconds from 1970 as a date and time to the microsecond, UTC. */
export function isoOf(whole_s: number, part_s: number): string {
  const micros = Math.round(part_s * 1e6);
  const carry = Math.floor(micros / 1e6);
  const date = new Date((whole_s + carry) * 1000).toISOString().slice(0, 19);
  return `${date}.${String(micros - carry * 1e6).padStart(6, '0')}Z`;
}
