/**
 * One load of known truth, which the files beside this one write in the ways of loggers, spreadsheets and people. Each
 * text is read to the truth, or refused with the option that leads out, which then reads it.
 */
import { expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../../src/scenario/scenario.ts';

/** The load: 21 samples, 0.5 s apart, whole watts; 1000 W rising by 40 W a sample to 1400 W and back. */
const n = 21;
const times_s = Array.from({ length: n }, (_, k) => k / 2);
export const watts: readonly number[] = times_s.map((_, k) => 1000 + 40 * Math.min(k, n - 1 - k));
/** Energy by hand: trapezoids of 0.5 s under a triangle of 400 W on 1000 W over 10 s. */
export const energy_J = 12_000;
export const start_s = 1_900_000_000;

type Cell = string | number;

/** The samples as rows of cells. */
export const rows = (of: (t: number, p: number, k: number) => readonly Cell[], mark = ','): string[] =>
  times_s.map((t, k) => of(t, watts[k]!, k).join(mark));
/** The samples as lines of text. */
export const lines = (of: (t: number, p: number, k: number) => string): string =>
  `${times_s.map((t, k) => of(t, watts[k]!, k)).join('\n')}\n`;
export const file = (...parts: readonly (string | readonly string[])[]): string =>
  `${parts.flat().join('\n')}\n`;

/** Watts with a comma before the thousands. */
export const grouped = (value: number): string => value.toFixed(1).replace(/\B(?=(\d{3})+\.)/, ',');
/** Another load: as many samples at this rate. */
export const sampled = (rate_Hz: number, count: number, of: (k: number) => number): string =>
  file(
    't_s,power_W',
    Array.from({ length: count }, (_, k) => `${k / rate_Hz},${of(k)}`),
  );

export const iso = (t: number): string => new Date((start_s + t) * 1000).toISOString();
export const clock = (t: number): string => iso(t).slice(11, 23);
export const comma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',');

export const read = (text: string, reading: Partial<RecordedReading> = {}): ReturnType<typeof readRecorded> =>
  readRecorded(text, { file: 'ugly', sha256: 'sum' }, { ...plainReading, ...reading });

/** Columns told by number, in files without names. */
export const byNumber = { time: '1:s', power: ['2'], unit: 'W' } as const;

/** Name, text, and what is told of it. */
type Readable = readonly [string, string, Partial<RecordedReading>?];

export function readToTruth(cases: readonly Readable[]): void {
  test.each(cases.map(([name, text, reading]) => ({ name, text, reading })))('$name', ({ text, reading }) => {
    const { statement: s } = read(text, reading);
    expect(s.total.energy_J).toBeCloseTo(energy_J, 3);
    expect([s.total.min_W, s.total.max_W, s.duration_s]).toEqual([
      expect.closeTo(1000, 6),
      expect.closeTo(1400, 6),
      expect.closeTo(10, 6),
    ]);
    expect(s.gaps_count).toBe(0);
    expect(s.signs).toEqual([]);
  });
}

/** Name, text, part of what is found, and the option that leads out. */
type LeftOpen = readonly [string, string, RegExp, Partial<RecordedReading>];

export function readOnceTold(cases: readonly LeftOpen[]): void {
  test.each(cases)('%s', (_, text, way, reading) => {
    expect(() => read(text)).toThrow(way);
    expect(read(text, reading).statement.total.energy_J).toBeCloseTo(energy_J, 3);
  });
}

/** Name, text, and part of the way out. */
type Refused = readonly [string, string, RegExp];

export function refused(cases: readonly Refused[]): void {
  test.each(cases)('%s', (_, text, way) => {
    expect(() => read(text)).toThrow(way);
  });
}
