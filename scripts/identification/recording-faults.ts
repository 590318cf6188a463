/** Faults of a recording, each as it would change what an instrument has written, and what a fit should say of it. */
import type { MeasuredColumn } from '../../src/measured/measurement.ts';

export interface RecordingFault {
  readonly name: string;
  /** Kinds that are right to be named first. */
  readonly named: readonly string[];
  readonly of: (columns: readonly MeasuredColumn[]) => readonly MeasuredColumn[];
}

type Change = (value: number, k: number, column: MeasuredColumn) => number;

/** Channel 0 is a voltage, channel 1 a current. */
const values =
  (c: number, change: Change): RecordingFault['of'] =>
  (columns) =>
    columns.map((column, i) =>
      i === c ? { ...column, values: column.values.map((v, k) => change(v, k, column)) } : column,
    );

const swingOf = ({ values: all }: MeasuredColumn): number => Math.max(...all) - Math.min(...all);
const shareOf = (k: number, { values: all }: MeasuredColumn): number => k / all.length;

/** Rows between two shares of the file are lost, and stamps go on. */
const lost =
  (from: number, to: number): RecordingFault['of'] =>
  (columns) =>
    columns.map((column) => {
      const kept = [...column.values.keys()].filter((k) => {
        const share = shareOf(k, column);
        return share < from || share >= to;
      });
      return {
        ...column,
        time_s: column.time_s.slice(0, kept.length),
        values: Float64Array.from(kept, (k) => column.values[k]!),
      };
    });

/** Rows joined to their means, with the stamp of the first. */
const joined =
  (rows: number): RecordingFault['of'] =>
  (columns) =>
    columns.map((column) => {
      const count = Math.floor(column.values.length / rows);
      const mean = (k: number): number =>
        column.values.subarray(k * rows, (k + 1) * rows).reduce((sum, v) => sum + v, 0) / rows;
      return {
        ...column,
        time_s: Float64Array.from({ length: count }, (_, k) => column.time_s[k * rows]!),
        values: Float64Array.from({ length: count }, (_, k) => mean(k)),
      };
    });

const stamps =
  (change: (t: number, share: number) => number): RecordingFault['of'] =>
  (columns) =>
    columns.map((column) => ({
      ...column,
      time_s: column.time_s.map((t, k) => change(t, shareOf(k, column))),
    }));

export const recordingFaults: readonly RecordingFault[] = [
  { name: 'current of the other sign', named: ['sign'], of: values(1, (v) => -v) },
  { name: 'voltage of the other sign', named: ['sign'], of: values(0, (v) => -v) },
  { name: 'current 5 % too large', named: ['gain'], of: values(1, (v) => 1.05 * v) },
  // Of a voltage that hardly moves a gain is a zero.
  { name: 'voltage 3 % too large', named: ['gain', 'bias'], of: values(0, (v) => 1.03 * v) },
  { name: 'zero of the current off', named: ['bias'], of: values(1, (v, _, c) => v + 0.08 * swingOf(c)) },
  { name: 'zero of the voltage off', named: ['bias', 'gain'], of: values(0, (v) => v + 0.5) },
  {
    name: 'zero of the current drifts',
    named: ['drift'],
    of: values(1, (v, k, c) => v + 0.05 * swingOf(c) * shareOf(k, c)),
  },
  {
    name: 'current cut off',
    named: ['readings'],
    of: (columns) => {
      const rest = [...columns[1]!.values].sort((a, b) => a - b);
      const end = rest[Math.floor(0.7 * rest.length)]!;
      return values(1, (v) => Math.min(v, end))(columns);
    },
  },
  {
    name: 'current frozen',
    named: ['readings'],
    of: values(1, (v, k, c) =>
      shareOf(k, c) > 0.5 && shareOf(k, c) < 0.7 ? c.values[Math.ceil(0.5 * c.values.length)]! : v,
    ),
  },
  { name: 'means of five rows', named: ['averaged'], of: joined(5) },
  { name: 'clock 1.5 % fast', named: ['clock'], of: stamps((t) => 1.015 * t) },
  {
    name: 'current 3 samples behind',
    named: ['delay'],
    of: values(1, (_, k, c) => c.values[Math.max(0, k - 3)]!),
  },
  // Where a curve is smooth a gain from a moment on does the same.
  {
    name: 'stamps jump by 30 ms',
    named: ['stamps', 'time lost'],
    of: stamps((t, share) => (share < 0.5 ? t : t + 0.03)),
  },
  { name: 'rows lost, stamps go on', named: ['time lost', 'gain'], of: lost(0.45, 0.6) },
];
