/** A time–current curve as a data sheet gives it: current over rating, and the time after which that trips. */
import { readQuantity } from '../../base/quantity.ts';
import type { TripCurve } from '../scenario.ts';
import { joined } from '../text/branches.ts';
import { readCsvTable } from '../text/csv-table.ts';
import type { Desk } from '../text/desk.ts';
import { type Leaf, type Node, problemAt } from '../text/document.ts';
import type { Origin } from '../text/origin.ts';
import { besideFile } from '../text/paths.ts';

/** Columns of a file of points. */
const columns = ['current_ratio', 'time_s'] as const;

interface WrittenPoint {
  readonly ratio: Leaf;
  readonly time: Leaf;
}

/** `node`: points as `1.5: 600 s`, or the name of a CSV file beside `file`. Null where it cannot be read. */
export function readTripCurve(file: string, node: Node, path: string, desk: Desk): TripCurve | null {
  const points =
    node.kind === 'branch'
      ? [...node.entries].flatMap(([text, { node: time, keyOrigin }]): WrittenPoint[] =>
          time.kind === 'leaf' ? [{ ratio: { kind: 'leaf', text, origin: keyOrigin }, time }] : [],
        )
      : node.kind === 'leaf'
        ? pointsOfFile(besideFile(file, node.text), node.origin, path, desk)
        : [];
  if (points === null) return null;
  const before = desk.problems.length;
  const ratios = points.map(({ ratio }) => readValue(ratio, 'ratio', path, desk));
  const times_s = points.map(({ time }) => readValue(time, 'time', path, desk));
  if (points.length < 2)
    refuse(desk, node.origin, path, `${points.length} points`, 'at least two', 'write them like 1.5: 600 s');
  points.forEach(({ ratio, time }, k) => {
    if (k === 0) return;
    if (!(ratios[k]! > ratios[k - 1]!))
      refuse(
        desk,
        ratio.origin,
        path,
        ratio.text,
        'currents that rise from point to point',
        'put the points in order',
      );
    if (!(times_s[k]! <= times_s[k - 1]!))
      refuse(
        desk,
        time.origin,
        path,
        time.text,
        'times that fall as the current rises',
        'look at this point again',
      );
  });
  return desk.problems.length > before ? null : { ratios, times_s };
}

function pointsOfFile(target: string, named: Origin, path: string, desk: Desk): WrittenPoint[] | null {
  const text = desk.text(target, named, path);
  const table = text === null ? null : readCsvTable(target, text, desk.problems);
  if (table === null) return null;
  const [ratio, time] = columns.map((name) => table.head.findIndex((cell) => cell.text === name));
  if (ratio === undefined || time === undefined || ratio < 0 || time < 0) {
    const found = table.head.map((cell) => cell.text).join(', ');
    refuse(
      desk,
      { file: target, line: 1, column: 1 },
      path,
      found,
      `columns ${columns.join(' and ')}`,
      'name them in the first line',
    );
    return null;
  }
  const empty: Leaf = { kind: 'leaf', text: '', origin: { file: target, line: 1, column: 1 } };
  return table.rows.map((row) => {
    const seconds = row[time] ?? empty;
    return { ratio: row[ratio] ?? empty, time: { ...seconds, text: `${seconds.text} s` } };
  });
}

function readValue(leaf: Leaf, dimension: 'ratio' | 'time', path: string, desk: Desk): number {
  const read = readQuantity(leaf.text, dimension);
  if (read.ok && read.value > 0) return read.value;
  if (read.ok) refuse(desk, leaf.origin, path, leaf.text, 'a value above 0', 'look at this point again');
  else refuse(desk, leaf.origin, joined(path), read.found, read.expected, read.mend);
  return Number.NaN;
}

function refuse(desk: Desk, at: Origin, path: string, found: string, expected: string, mend: string): void {
  desk.problems.push(problemAt(at, path, found, expected, mend));
}
