import { type DateOrder, readDateStamp } from './date-stamp.ts';
import { epochUnitOf, perSecondOf, stampWithUnit, type TimeUnit } from './time-unit.ts';

const number = /^([-+]?)(\d+)(?:[.,](\d*))?$/;
const day_s = 86400;

/** Furthest stamp from 1970, or from the first stamp [s]: three thousand years. Beyond it a stamp is none. */
const furthest_s = 1e11;

/** A number in a unit, a number with its unit in the same cell, or a date and time. */
export type StampForm = TimeUnit | 'celled' | 'date';

/**
 * Reads stamps as seconds after the first one read. Whole and broken part are kept apart and the first stamp is
 * taken off the whole part before anything is rounded: an epoch in nanoseconds keeps its nanoseconds.
 */
export class Clock {
  readonly form: StampForm;
  /** A date and time without a zone was read (as UTC). */
  zoneless = false;
  /** One with a zone was read. */
  zoned = false;
  /** Times of day without a date were read; days are counted on at midnight. */
  dayOnly = false;
  private readonly order: DateOrder | null;
  private origin: bigint | null = null;
  private originWhole = 0;
  private last_s = Number.NaN;

  constructor(form: StampForm, order: DateOrder | null = null) {
    this.form = form;
    this.order = order;
  }

  /** Seconds after the first stamp, or NaN where the cell is no stamp, or lies beyond all time. */
  read(cell: string): number {
    const time_s = this.readAny(cell);
    return Math.abs(time_s) <= furthest_s ? time_s : Number.NaN;
  }

  private readAny(cell: string): number {
    if (this.form === 'date') return this.readDate(cell);
    if (this.form !== 'celled') return this.readNumber(cell.trim(), this.form);
    const stamp = stampWithUnit(cell.trim());
    if (stamp === null) return Number.NaN;
    this.setOrigin(0n);
    return stamp.value / perSecondOf(stamp.unit);
  }

  /** First stamp in seconds from 1970, whole and broken part; null where time is relative or nothing was read. */
  get start(): { readonly whole_s: number; readonly part_s: number } | null {
    const { form } = this;
    if (this.origin === null || this.dayOnly) return null;
    if (form !== 'date' && (form === 'celled' || epochUnitOf(Number(this.origin)) !== form)) return null;
    const per = form === 'date' ? 1 : perSecondOf(form);
    const whole = this.origin / BigInt(per);
    const part_s = Number(this.origin - whole * BigInt(per)) / per;
    return { whole_s: Number(whole), part_s };
  }

  private readNumber(cell: string, unit: TimeUnit): number {
    const parts = number.exec(cell);
    if (parts === null) {
      // 1.5e3 and the like: no epoch is written so, plain reading is exact enough.
      const value = /^[-+]?[\d.]+e[-+]?\d+$/i.test(cell) ? Number(cell) : Number.NaN;
      if (Number.isNaN(value)) return value;
      this.setOrigin(0n);
      return (value - this.originWhole) / perSecondOf(unit);
    }
    const digits = parts[2]!;
    // What lies beyond all time must not become the origin of what follows.
    if (digits.length > 8 && Number(digits) / perSecondOf(unit) > furthest_s) return Number.NaN;
    // Short stamps are relative: kept as they are, so that what was written is what is read. Not so days: those of a
    // spreadsheet lie a century after their origin.
    if (digits.length < 9 && unit !== 'd' && (this.origin === null || this.originWhole === 0)) {
      this.setOrigin(0n);
      return Number(cell.replace(',', '.')) / perSecondOf(unit);
    }
    const sign = parts[1] === '-' ? -1 : 1;
    const fraction = parts[3] === undefined || parts[3] === '' ? 0 : sign * Number(`0.${parts[3]}`);
    if (digits.length < 16) {
      // Whole numbers below 2^53 are exact as they are.
      const whole = sign * Number(digits);
      if (this.origin === null) this.setOrigin(BigInt(whole));
      if (this.originWhole < Number.MAX_SAFE_INTEGER) {
        return (whole - this.originWhole + fraction) / perSecondOf(unit);
      }
    }
    const whole = sign < 0 ? -BigInt(digits) : BigInt(digits);
    if (this.origin === null) this.setOrigin(whole);
    return (Number(whole - this.origin!) + fraction) / perSecondOf(unit);
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
    if (stamp.zoned) this.zoned = true;
    else this.zoneless = true;
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
