import { epochUnitOf, perSecond, type TimeUnit } from './time-unit.ts';

const isoStamp =
  /^(\d{4})[-/](\d\d)[-/](\d\d)[T ](\d\d):(\d\d):(\d\d)(?:[.,](\d+))?\s*(Z|UTC|[+-]\d\d:?\d\d)?$/i;
const number = /^([-+]?)(\d+)(?:\.(\d*))?$/;

export function isIsoStamp(cell: string): boolean {
  return isoStamp.test(cell.trim());
}

/**
 * Reads stamps as seconds after the first one read. Whole and broken part are kept apart and the first stamp is
 * taken off the whole part before anything is rounded: an epoch in nanoseconds keeps its nanoseconds.
 */
export class Clock {
  /** How stamps are written: a number in a unit, or a date and time. */
  readonly form: TimeUnit | 'iso';
  /** A date and time without a zone was read (as UTC). */
  zoneless = false;
  private origin: bigint | null = null;

  constructor(form: TimeUnit | 'iso') {
    this.form = form;
  }

  /** Seconds after the first stamp, or NaN where the cell is no stamp. */
  read(cell: string): number {
    return this.form === 'iso' ? this.readIso(cell.trim()) : this.readNumber(cell.trim(), this.form);
  }

  /** First stamp in seconds from 1970, whole and broken part; null where time is relative or nothing was read. */
  get start(): { readonly whole_s: number; readonly part_s: number } | null {
    if (this.origin === null) return null;
    const per = this.form === 'iso' ? 1 : perSecond[this.form];
    const whole = this.origin / BigInt(per);
    const part_s = Number(this.origin - whole * BigInt(per)) / per;
    if (this.form !== 'iso' && epochUnitOf(Number(this.origin)) !== this.form) return null;
    return { whole_s: Number(whole), part_s };
  }

  private readNumber(cell: string, unit: TimeUnit): number {
    const parts = number.exec(cell);
    if (parts === null) {
      // 1.5e3 and the like: no epoch is written so, plain reading is exact enough.
      const value = /^[-+]?[\d.]+e[-+]?\d+$/i.test(cell) ? Number(cell) : Number.NaN;
      if (Number.isNaN(value)) return value;
      this.origin ??= 0n;
      return (value - Number(this.origin)) / perSecond[unit];
    }
    const digits = parts[2]!;
    // Short stamps are relative: kept as they are, so that what was written is what is read.
    if (digits.length < 9 && (this.origin === null || this.origin === 0n)) {
      this.origin = 0n;
      return Number(cell) / perSecond[unit];
    }
    const sign = parts[1] === '-' ? -1 : 1;
    const whole = sign < 0 ? -BigInt(digits) : BigInt(digits);
    const fraction = parts[3] === undefined || parts[3] === '' ? 0 : sign * Number(`0.${parts[3]}`);
    this.origin ??= whole;
    return (Number(whole - this.origin) + fraction) / perSecond[unit];
  }

  private readIso(cell: string): number {
    const parts = isoStamp.exec(cell);
    if (parts === null) return Number.NaN;
    const [, year, month, day, hour, minute, second, fraction, zone] = parts;
    const ms = Date.UTC(+year!, +month! - 1, +day!, +hour!, +minute!, +second!);
    if (new Date(ms).getUTCDate() !== +day! || +hour! > 23 || +minute! > 59 || +second! > 60)
      return Number.NaN;
    if (zone === undefined) this.zoneless = true;
    const whole = BigInt(ms / 1000 - zoneShift_s(zone));
    this.origin ??= whole;
    return Number(whole - this.origin) + (fraction === undefined ? 0 : Number(`0.${fraction}`));
  }
}

function zoneShift_s(zone: string | undefined): number {
  if (zone === undefined || /^(Z|UTC)$/i.test(zone)) return 0;
  const sign = zone.startsWith('-') ? -1 : 1;
  const digits = zone.replace(/\D/g, '');
  return sign * (Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60);
}

/** Seconds from 1970 as a date and time to the microsecond, UTC. */
export function isoOf(whole_s: number, part_s: number): string {
  const micros = Math.round(part_s * 1e6);
  const carry = Math.floor(micros / 1e6);
  const date = new Date((whole_s + carry) * 1000).toISOString().slice(0, 19);
  return `${date}.${String(micros - carry * 1e6).padStart(6, '0')}Z`;
}
