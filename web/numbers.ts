/** Numbers as text, always with their unit. */
import { format } from 'd3';

const plain = format(',.4~g');
const percent = format('.1f');
const minus = '−';

const hour_s = 3600;
const year_s = 365.25 * 24 * hour_s;

const scaled = new Set(['W', 'J', 'W/s', 'VA', 'A', 'Hz']);

/** A value in SI as people read it: kW above a thousand watts, percent for ratios, ms below a tenth of a second. */
export function withUnit(value: number | null | undefined, unit: string): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '–';
  if (unit === 'ratio') return `${signed(percent(100 * value))} %`;
  if (unit === '' || unit === 'count') return signed(plain(value));
  if (unit === 'V') return `${signed(value.toFixed(2))} V`;
  if (unit === 's') return duration(value);
  const size = Math.abs(value);
  if (unit === 'A') return `${signed(size < 100 ? value.toFixed(1) : format(',.0f')(value))} A`;
  if (!scaled.has(unit)) return `${signed(plain(value))} ${unit.replace('deg', '°')}`;
  if (size >= 0.9995e6) return `${signed(plain(value / 1e6))} M${unit}`;
  if (size >= 0.9995e3) return `${signed(format('.1f')(value / 1e3))} k${unit}`;
  return `${signed(format('.1f')(value))} ${unit}`;
}

/** A length of time. */
export function duration(s: number): string {
  const size = Math.abs(s);
  if (size >= year_s) return `${plain(s / year_s)} years`;
  if (size >= hour_s) return `${plain(s / hour_s)} h`;
  if (size >= 1 || s === 0) return `${plain(s)} s`;
  if (size >= 1e-3) return `${plain(s * 1e3)} ms`;
  return `${plain(s * 1e6)} µs`;
}

/** A moment, to the precision that the shown span calls for. */
export function moment(t_s: number, span_s: number): string {
  const digits = Math.min(6, Math.max(2, Math.ceil(-Math.log10(span_s)) + 3));
  return `${signed(t_s.toFixed(digits))} s`;
}

/** A moment by itself, in four digits as a terminal has it, to a tenth of a millisecond at most. */
export function instant(t_s: number): string {
  return `${signed(String(Number(Number(t_s.toPrecision(4)).toFixed(4))))} s`;
}

/** Whole percent, for headroom. */
export function wholePercent(ratio: number): string {
  const value = 100 * ratio;
  const digits = Math.abs(value) < 10 ? 1 : 0;
  return `${signed(value.toFixed(digits))} %`;
}

/** Text in which no line ends between a number and its unit. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=\S{1,5}(?:\s|$|[,.;)]))/g, '$1\u00a0');
}

function signed(text: string): string {
  return text.replace(/^-(?=0(?:\.0+)?$)/, '').replace('-', minus);
}
