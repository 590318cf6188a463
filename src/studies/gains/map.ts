/** A gains map: two axes, one cell for each pair, all cores, cells given out as they come. */
import { setMaxListeners } from 'node:events';
import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import { BadInput } from '../../base/problem.ts';
import { built } from '../../home.ts';
import type { Change } from '../../scenario/scenario.ts';
import { type Acceptance, lacks } from './accept.ts';
import type { GainsAxis } from './axis.ts';
import type { GainsCell } from './cell.ts';
import { type Recommendation, recommend } from './recommend.ts';
import type { Strip, StripDone } from './strip.ts';

export interface MapOrder {
  readonly scenario: string;
  readonly changes: readonly Change[];
  readonly load_W: number;
  readonly axes: readonly [GainsAxis, GainsAxis];
  readonly acceptance: Acceptance;
  readonly workers?: number;
  /** Cells that are known already, by place; they are not computed again. */
  readonly known?: ReadonlyMap<string, GainsCell>;
  readonly onCells?: (cells: readonly PlacedCell[], done: number, all: number) => void;
  readonly signal?: AbortSignal;
}

export interface PlacedCell extends GainsCell {
  readonly x: number;
  readonly y: number;
  /** Why it is not acceptable; null where it is. */
  readonly lacks: string | null;
}

export interface GainsMap {
  readonly axes: readonly [GainsAxis, GainsAxis];
  /** Row by row: the second axis runs within the first. */
  readonly cells: readonly PlacedCell[];
  readonly recommended: Recommendation | null;
}

export function placeOf(x: number, y: number): string {
  return `${x} ${y}`;
}

export async function mapGains(order: MapOrder): Promise<GainsMap> {
  const [a, b] = order.axes;
  const all = a.values.length * b.values.length;
  const found = new Map<string, GainsCell>(order.known ?? []);
  const workers = order.workers ?? availableParallelism();
  const pool = new Piscina<Strip, StripDone>({
    filename: built('studies/gains/strip.ts').href,
    minThreads: 1,
    maxThreads: workers,
    execArgv: [],
  });
  // A strip runs along the axis that leaves the plant alone, where one does: firmware periods, latencies, gains.
  const along = a.path.startsWith('firmware.') && !b.path.startsWith('firmware.') ? 'x' : 'y';
  const strips = stripsOf(a.values.length, b.values.length, along).map((strip) =>
    strip.filter(([x, y]) => !found.has(placeOf(x, y))),
  );
  // One listener for each strip that waits.
  if (order.signal !== undefined) setMaxListeners(strips.length + 1, order.signal);
  try {
    await Promise.all(
      strips
        .filter((strip) => strip.length > 0)
        .map(async (strip) => {
          const cells = strip.map(([x, y]) => [
            ...order.changes,
            { path: a.path, value: a.values[x]! },
            { path: b.path, value: b.values[y]! },
          ]);
          const done = await pool.run(
            { scenario: order.scenario, load_W: order.load_W, cells },
            order.signal === undefined ? { name: 'work' } : { name: 'work', signal: order.signal },
          );
          if (done.kind === 'problems') throw new BadInput(done.problems);
          const placed = done.cells.map((cell, k): PlacedCell => {
            const [x, y] = strip[k]!;
            found.set(placeOf(x, y), cell);
            return { ...cell, x, y, lacks: lacks(cell, order.acceptance) };
          });
          order.onCells?.(placed, found.size, all);
        }),
    );
  } finally {
    await pool.destroy();
  }
  const cells: PlacedCell[] = [];
  for (let x = 0; x < a.values.length; x++) {
    for (let y = 0; y < b.values.length; y++) {
      const cell = found.get(placeOf(x, y))!;
      cells.push({ ...cell, x, y, lacks: lacks(cell, order.acceptance) });
    }
  }
  const at = (x: number, y: number): PlacedCell => cells[x * b.values.length + y]!;
  const good = a.values.map((_, x) => b.values.map((_, y) => at(x, y).lacks === null));
  const recommended = recommend(order.axes, good, (x, y) => -(at(x, y).clearance_ratio ?? 0));
  return { axes: order.axes, cells, recommended };
}

/** Parts of the grid for one thread each, short enough that all threads have work to the end. */
function stripsOf(nx: number, ny: number, along: 'x' | 'y'): [number, number][][] {
  const [outer, inner] = along === 'y' ? [nx, ny] : [ny, nx];
  return Array.from({ length: outer }, (_, o) =>
    Array.from({ length: inner }, (_, i): [number, number] => (along === 'y' ? [o, i] : [i, o])),
  );
}
