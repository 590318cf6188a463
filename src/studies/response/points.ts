/**
 * Points of a frequency response that the user measured, to be laid over the curves: a table with the columns
 * `frequency_Hz`, `gain_dB` and `phase_deg`, and `curve` where there is more than one.
 */
import Papa from 'papaparse';
import { BadInput, type Problem } from '../../base/problem.ts';
import type { ResponseCurve } from './respond.ts';

export interface ResponsePoint {
  /** Name of the curve, as `response` prints it; null for the one asked for on the command line. */
  readonly curve: string | null;
  readonly line: number;
  readonly frequency_Hz: number;
  readonly gain_dB: number;
  /** Null where only the magnitude was measured. */
  readonly phase_deg: number | null;
}

/** A point beside what the model has there: measured less model. */
export interface LaidPoint extends Omit<ResponsePoint, 'line'> {
  readonly curve: string;
  readonly model_dB: number;
  readonly model_deg: number;
  readonly error_dB: number;
  readonly error_deg: number | null;
}

const columns = ['frequency_Hz', 'gain_dB', 'phase_deg', 'curve'] as const;

/** Reads the table. Throws BadInput with every line that is wrong. */
export function readPoints(file: string, text: string, range_Hz: readonly [number, number]): ResponsePoint[] {
  const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, '').trimEnd(), { comments: '#' });
  const head = (data[0] ?? []).map((cell) => cell.trim());
  const problems: Problem[] = [];
  const wrong = (line: number, path: string, found: string, expected: string, mend: string): void => {
    problems.push({ severity: 'error', file, line, path, found, expected, mend });
  };
  for (const name of ['frequency_Hz', 'gain_dB']) {
    if (head.includes(name)) continue;
    wrong(
      1,
      name,
      head.join(', ') || 'nothing',
      `a column ${name}`,
      `head the columns ${columns.join(', ')} (the last two may be left out)`,
    );
  }
  if (problems.length > 0) throw new BadInput(problems);
  const cellOf = (row: readonly string[], name: string): string => (row[head.indexOf(name)] ?? '').trim();
  const points = data.slice(1).flatMap((row, k): ResponsePoint[] => {
    const line = k + 2;
    if (row.every((cell) => cell.trim() === '')) return [];
    const number = (name: string): number => {
      const cell = cellOf(row, name);
      const value = cell === '' ? Number.NaN : Number(cell);
      if (!Number.isFinite(value))
        wrong(line, name, cell === '' ? 'nothing' : cell, 'a number', 'write it like 12.5, without a unit');
      return value;
    };
    const frequency_Hz = number('frequency_Hz');
    if (frequency_Hz < range_Hz[0] || frequency_Hz > range_Hz[1])
      wrong(
        line,
        'frequency_Hz',
        `${frequency_Hz} Hz`,
        `${range_Hz[0]} Hz to ${range_Hz[1]} Hz`,
        'leave the point out: the model says nothing there',
      );
    const gain_dB = number('gain_dB');
    const phase_deg = cellOf(row, 'phase_deg') === '' ? null : number('phase_deg');
    const curve = cellOf(row, 'curve');
    return [{ curve: curve === '' ? null : curve, line, frequency_Hz, gain_dB, phase_deg }];
  });
  if (points.length === 0 && problems.length === 0)
    wrong(1, '', 'no points', 'one point or more', 'write one line for each frequency');
  if (problems.length > 0) throw new BadInput(problems);
  return points;
}

/** Each point beside the model; the curves must have been computed at the points' frequencies. Throws BadInput. */
export function layPoints(
  file: string,
  points: readonly ResponsePoint[],
  curves: readonly ResponseCurve[],
  usual: string | null,
): LaidPoint[] {
  const problems: Problem[] = [];
  const laid = points.flatMap(({ line, ...point }): LaidPoint[] => {
    const name = point.curve ?? usual;
    const curve = curves.find((one) => one.name === name);
    if (curve === undefined) {
      // Without a name anywhere every line lacks it: said once.
      if (name === null && problems.length > 0) return [];
      problems.push({
        severity: 'error',
        file,
        line,
        path: 'curve',
        found: name ?? 'no curve named',
        expected: `one of ${curves.map((one) => one.name).join('; ')}`,
        mend: 'name it in the column curve, or once for all with --curve',
      });
      return [];
    }
    const k = curve.frequency_Hz.indexOf(point.frequency_Hz);
    if (k < 0) {
      problems.push({
        severity: 'error',
        file,
        line,
        path: 'frequency_Hz',
        found: `${point.frequency_Hz} Hz on ${curve.name}`,
        expected: `at most ${curve.half_sampling_Hz} Hz, half the rate at which it is sampled`,
        mend: 'leave the point out',
      });
      return [];
    }
    const model_dB = curve.gain_dB[k] ?? Number.NEGATIVE_INFINITY;
    const model_deg = curve.phase_deg[k]!;
    const turn = point.phase_deg === null ? null : point.phase_deg - model_deg;
    return [
      {
        ...point,
        curve: curve.name,
        model_dB,
        model_deg,
        error_dB: point.gain_dB - model_dB,
        // A turn more or less is the same angle.
        error_deg: turn === null ? null : turn - 360 * Math.round(turn / 360),
      },
    ];
  });
  if (problems.length > 0) throw new BadInput(problems);
  return laid;
}
