/**
 * Rows of JSON lines: an object a line, whose keys name its columns, or an array a line, whose columns have no names.
 * Objects within objects give columns such as `board.power_W`. The columns are the keys of the first lines, in the
 * order in which they come; a key that comes later has no column and is told of. Digits of whole numbers are kept, however many.
 */
import { repeatedKey } from './repeated-key.ts';
import type { TextRows } from './text-rows.ts';

/** Lines from which the columns are taken. */
const headLines = 200;
/** A line longer than this is no sample. */
const longestLine = 1 << 20;
/** Objects within objects are followed this deep. */
const deepest = 8;

export class JsonRows implements TextRows {
  readonly delimiter = null;
  readonly commentsAboveRows: readonly string[] = [];
  readonly comments: readonly string[] = [];
  /** A line that is cut is no JSON. */
  readonly unended = null;
  unreadable = 0;
  private readonly take: (row: readonly string[], line: number) => void;
  private readonly lose: (line: number) => void;
  private readonly refuseTwice: (key: string, line: number) => never;
  private readonly meetLater: (key: string, line: number) => void;
  private names: Map<string, number> | null = null;
  /** null: a line that is no row. */
  private head: { readonly cells: ReadonlyMap<string, string> | null; readonly line: number }[] = [];
  private rest = '';
  private line = 0;

  /**
   * `take` gets each row with its line, 1-based; first the row of names, where lines are objects. `lose` is called in its
   * place where a line is no row, `refuseTwice` where a key stands twice in an object, `meetLater` where no line at the
   * head has it.
   */
  constructor(
    take: (row: readonly string[], line: number) => void,
    lose: (line: number) => void,
    refuseTwice: (key: string, line: number) => never,
    meetLater: (key: string, line: number) => void,
  ) {
    this.take = take;
    this.lose = lose;
    this.refuseTwice = refuseTwice;
    this.meetLater = meetLater;
  }

  push(text: string): void {
    const lines = (this.rest + text).split(/\r?\n/);
    this.rest = lines.pop()!;
    if (this.rest.length > longestLine) {
      this.takeLine(this.rest);
      this.rest = '';
    }
    for (const line of lines) this.takeLine(line);
  }

  finish(): void {
    this.takeLine(this.rest);
    this.rest = '';
    this.begin();
  }

  private takeLine(text: string): void {
    this.line++;
    if (text.trim() === '') return;
    const value = parsed(text);
    const twice = value === undefined ? null : repeatedKey(text, value);
    if (twice !== null) this.refuseTwice(twice, this.line);
    const cells = cellsIn(value);
    if (cells === null) {
      this.unreadable++;
      if (this.head.length === 0) this.lose(this.line);
      else this.head.push({ cells, line: this.line });
    } else if (Array.isArray(cells)) {
      this.take(cells, this.line);
    } else if (this.names === null) {
      this.head.push({ cells, line: this.line });
      if (this.head.length === headLines) this.begin();
    } else this.takeCells(cells, this.line);
  }

  private begin(): void {
    if (this.names !== null || this.head.length === 0) return;
    const names = new Map<string, number>();
    for (const { cells } of this.head) {
      for (const name of cells?.keys() ?? []) if (!names.has(name)) names.set(name, names.size);
    }
    this.names = names;
    this.take([...names.keys()], this.head[0]!.line);
    for (const { cells, line } of this.head) {
      if (cells === null) this.lose(line);
      else this.takeCells(cells, line);
    }
    this.head = [];
  }

  private takeCells(cells: ReadonlyMap<string, string>, line: number): void {
    const row = new Array<string>(this.names!.size).fill('');
    for (const [name, cell] of cells) {
      const index = this.names!.get(name);
      if (index === undefined) this.meetLater(name, line);
      else row[index] = cell;
    }
    this.take(row, line);
  }
}

/** Whether a text is JSON lines, by its first line that is not blank. */
export function isJsonLine(text: string): boolean {
  return /^\s*[[{]/.test(text) && cellsIn(parsed(text)) !== null;
}

/** Cells of the value of a line by their names, or in their order; null where it is neither an object nor an array of values. */
function cellsIn(value: unknown): ReadonlyMap<string, string> | string[] | null {
  if (typeof value !== 'object' || value === null) return null;
  if (!Array.isArray(value)) {
    const cells = new Map<string, string>();
    collect(value, '', 0, cells);
    return cells;
  }
  if (value.length === 0 || value.some((one) => typeof one === 'object' && one !== null)) return null;
  return value.map(cellOf);
}

function parsed(text: string): unknown {
  const long = /\d{16}/.test(text);
  // A number of 16 digits and more would lose its last ones: as a text it keeps them.
  const kept = long ? parse(text.replace(/([:[,]\s*)(-?\d{16,})(?=\s*[,}\]])/g, '$1"$2"')) : undefined;
  return kept === undefined ? parse(text) : kept;
}

/** undefined: no JSON. */
function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function collect(value: object, prefix: string, depth: number, cells: Map<string, string>): void {
  for (const [key, one] of Object.entries(value)) {
    const name = prefix === '' ? key : `${prefix}.${key}`;
    if (typeof one === 'object' && one !== null && depth < deepest) collect(one, name, depth + 1, cells);
    else cells.set(name, cellOf(one));
  }
}

function cellOf(value: unknown): string {
  return value === null || value === undefined || typeof value === 'object' ? '' : String(value);
}
