/**
 * All values of a scenario in one flat sheet, by path: `trays.T4.capacitance`, `firmware.share.period`. Files
 * fill it, ageing and changes write over it, the frozen scenario is read from it.
 */
import type { Problem } from '../base/problem.ts';
import { families } from './tables.ts';
import { problemAt } from './text/document.ts';
import { type FieldSpec, type FieldValue, readField } from './text/field.ts';
import { nearestOr } from './text/nearest.ts';
import type { Origin } from './text/origin.ts';
import type { Note } from './text/sourced.ts';

export interface Cell {
  readonly field: FieldSpec;
  readonly value: FieldValue;
  /** null: nobody wrote it, the fallback holds. */
  readonly origin: Origin | null;
  /** Of the model that the value comes from; null once something wrote over it. */
  readonly note: Note | null;
  /** That of the model whose value was written over: its corners are still those of such a part. */
  readonly modelNote?: Note | null;
  /** What is written of it, where the state of its part makes `value` of that. */
  readonly written?: FieldValue;
}

/** A model file, as a part names it. */
export interface ModelOfPart {
  readonly file: string;
  readonly title: string;
}

/** What a change would write over: the value of a new part at usual temperature. */
export function asWritten({ value, written }: Pick<Cell, 'value' | 'written'>): FieldValue {
  return written === undefined ? value : written;
}

/** What the model says of such a part, also where something wrote over its value. */
export function modelNoteOf({ note, modelNote }: Cell): Note | null {
  return note ?? modelNote ?? null;
}

export class Sheet {
  readonly cells: Map<string, Cell> = new Map();
  readonly problems: Problem[];
  /** The model that a part takes its values from, by the part's path: `trays.T4`. */
  readonly models: Map<string, ModelOfPart> = new Map();
  /** Paths that a change may name beside the cells. */
  otherPaths: readonly string[] = [];

  constructor(problems: Problem[]) {
    this.problems = problems;
  }

  put(path: string, cell: Cell): void {
    this.cells.set(path, cell);
  }

  /** Reads a text into a cell that may or may not be there yet; a bad text leaves what was there. */
  write(path: string, field: FieldSpec, text: string, origin: Origin | null): void {
    const value = readField(text, field, path, origin, this.problems);
    const before = this.cells.get(path);
    const modelNote = before === undefined ? null : modelNoteOf(before);
    if (value !== undefined) this.cells.set(path, { field, value, origin, note: null, modelNote });
  }

  /**
   * Applies a change: one cell, or one key of all units of a kind (`trays.capacitance`). An unknown path is a
   * problem that names the nearest ones.
   */
  change(path: string, text: string, origin: Origin): void {
    const targets = this.targetsOf(path);
    if (targets.length === 0) {
      this.problems.push(this.unknown(path, origin));
      return;
    }
    const before = this.problems.length;
    for (const target of targets) {
      this.write(target, this.cells.get(target)!.field, text, origin);
      // The same text fails the same way for each unit: once is enough, under the path as written.
      if (this.problems.length > before) {
        const [problem] = this.problems.splice(before, this.problems.length - before);
        if (target === targets.at(-1) || problem!.severity === 'error') {
          this.problems.push({ ...problem!, path });
          if (problem!.severity === 'error') return;
        }
      }
    }
  }

  targetsOf(path: string): string[] {
    if (this.cells.has(path)) return [path];
    const group = groupOf(path);
    if (group === null) return [];
    return [...this.cells.keys()].filter((cell) => groupPath(cell) === path);
  }

  /** Every path that a change may name: cells and keys of whole kinds. */
  paths(): string[] {
    const cells = [...this.cells.keys()];
    const groups = cells.map(groupPath).filter((group) => group !== null);
    return [...new Set([...groups, ...cells, ...this.otherPaths])];
  }

  private unknown(path: string, origin: Origin): Problem {
    return problemAt(
      origin,
      path,
      `path ${path}`,
      'a path of the scenario, for example trays.capacitance or trays.T4.capacitance',
      nearestOr('the command check --paths lists them all', path, this.paths()),
    );
  }

  number(path: string): number {
    const value = this.cells.get(path)?.value;
    return typeof value === 'number' ? value : Number.NaN;
  }

  numberOrNull(path: string): number | null {
    const value = this.cells.get(path)?.value;
    return typeof value === 'number' ? value : null;
  }

  text(path: string): string | null {
    const value = this.cells.get(path)?.value;
    return typeof value === 'string' ? value : null;
  }

  flag(path: string): boolean {
    return this.cells.get(path)?.value === true;
  }
}

const known: ReadonlySet<string> = new Set(families);

/** The prefix of a path that a whole kind of unit shares, or null. */
function groupOf(path: string): string | null {
  if (path.startsWith('bars.links.')) return 'bars.links';
  const dot = path.indexOf('.');
  const family = dot < 0 ? path : path.slice(0, dot);
  return known.has(family) ? family : null;
}

/** `trays.T4.capacitance` gives `trays.capacitance`; null for a cell that belongs to no kind. */
export function groupPath(cell: string): string | null {
  const group = groupOf(cell);
  if (group === null) return null;
  const rest = cell.slice(group.length + 1);
  const dot = rest.indexOf('.');
  return dot < 0 ? null : `${group}.${rest.slice(dot + 1)}`;
}
