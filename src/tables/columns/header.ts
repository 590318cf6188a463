import { isValueCell } from '../cells/value-cell.ts';
import { saysCurrent, saysPower, saysTime, saysVoltage } from './column-names.ts';

/** A row with the line it stands on. */
export interface NumberedRow {
  readonly row: readonly string[];
  readonly line: number;
}

export interface Header {
  readonly names: readonly string[];
  readonly line: number;
  /** Rows below the header, from the first on. */
  readonly rows: readonly NumberedRow[];
  /** Rows above the header that name nothing. */
  readonly above: number;
  /** A row of units stood below the names. */
  readonly unitsBelow: boolean;
  /** The line of names as written, and that of units: either may stand again further down. */
  readonly written: readonly (readonly string[])[];
}

const number = /^[-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:e[-+]?\d+)?$/i;
const unitCell = /^[[(]?\s*(?:[µμmunkM]?(?:s|W|A|V)|sec|seconds?|watts?|amps?|volts?|-|)\s*[\])]?$/;

export function areNumbers(row: readonly string[]): boolean {
  return row.every((cell) => number.test(cell.trim()));
}

/**
 * Finds the header among the first rows: the first row that names a time and a measured quantity and is as wide
 * as most rows; else the first row of that width, if it holds a word where the rows below hold values. null where
 * there is none: then the first row is a sample.
 */
export function headerOf(lines: readonly NumberedRow[]): Header | null {
  const width = mostCommonWidth(lines);
  const named = lines.findIndex(({ row }) => fits(row, width) && namesColumns(row));
  const at = named >= 0 ? named : lines.findIndex(({ row }) => fits(row, width));
  const found = lines[at];
  if (found === undefined) return null;
  if (named < 0 && !standsAbove(found.row, lines.slice(at + 1))) return null;
  const next = lines[at + 1];
  const unitsBelow = next !== undefined && isUnits(next.row);
  const names = found.row.map((name, i) => {
    const unit = unitsBelow ? (next!.row[i] ?? '').replace(/[[\]()\s]/g, '') : '';
    return unit === '' || unit === '-' ? name.trim() : `${name.trim()} (${unit})`;
  });
  const written = lines.slice(at, at + (unitsBelow ? 2 : 1)).map(({ row }) => row);
  return { names, line: found.line, rows: lines.slice(at + written.length), above: at, unitsBelow, written };
}

/** Whether a row names a time and something measured. */
export function namesColumns(row: readonly string[]): boolean {
  return !isUnits(row) && row.some(saysTime) && row.some((name) => !isValueCell(name) && saysMeasured(name));
}

/** Whether a name is that of something measured. */
export function saysMeasured(name: string): boolean {
  return saysPower(name) || saysCurrent(name) || saysVoltage(name);
}

/** Whether a row holds a word in a column in which most of the rows below hold values; alone, any word will do. */
function standsAbove(row: readonly string[], below: readonly NumberedRow[]): boolean {
  return row.some((cell, i) => {
    if (cell.trim() === '' || isValueCell(cell)) return false;
    const cells = below.map((line) => line.row[i] ?? '').filter((other) => other.trim() !== '');
    return below.length === 0 || 2 * cells.filter(isValueCell).length > cells.length;
  });
}

/** Whether every cell of a row is a unit, or a dash. */
export function isUnits(row: readonly string[]): boolean {
  return row.some((cell) => cell.trim() !== '') && row.every((cell) => unitCell.test(cell.trim()));
}

/** A delimiter too many at the end of the header or of the rows does no harm. */
function fits(row: readonly string[], width: number): boolean {
  return Math.abs(row.length - width) <= 1 && row.length > 1;
}

function mostCommonWidth(lines: readonly NumberedRow[]): number {
  const counts = new Map<number, number>();
  for (const { row } of lines) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  let best = 0;
  for (const [width, count] of counts) if (width > 1 && count > (counts.get(best) ?? 0)) best = width;
  return best === 0 ? (lines[0]?.row.length ?? 0) : best;
}
