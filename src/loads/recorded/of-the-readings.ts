/**
 * Columns that say something of the readings beside them: which of them hold, or by what they are to be multiplied. Passed
 * over, wrong readings count, and right ones in the wrong scale.
 */
import { readNumberCell } from '../../tables/cells/number-cell.ts';
import { wordsOf } from '../../tables/columns/column-names.ts';
import { quotedName } from '../../tables/columns/column-report.ts';

const validity = new Set(['valid', 'validity', 'invalid', 'quality', 'ok', 'suspect', 'bad', 'qc']);
const multiplier = new Set(['multiplier', 'multiplicator', 'scale', 'scaling']);
/** A note on readings takes few values; a column of many is a measured quantity. */
const mostValues = 4;

export interface NamedColumn {
  readonly index: number;
  readonly name: string;
}

interface Told {
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Columns among those that are not read, by their names. */
export function notesAmong(names: readonly string[], unused: readonly string[]): readonly NamedColumn[] {
  return names.flatMap((name, index) => {
    const words = wordsOf(name);
    const says = words.some((word) => validity.has(word) || multiplier.has(word));
    return says && unused.includes(name) ? [{ index, name }] : [];
  });
}

export class ReadingNotes {
  private readonly column: NamedColumn;
  private readonly times = new Map<string, number>();
  private rows = 0;

  constructor(column: NamedColumn) {
    this.column = column;
  }

  /** A row that gave a sample. */
  meet(row: readonly string[]): void {
    this.rows++;
    const value = (row[this.column.index] ?? '').trim();
    const known = this.times.get(value);
    if (known !== undefined || this.times.size <= mostValues) this.times.set(value, (known ?? 0) + 1);
  }

  /** What it says of the readings; null where it says nothing, or the same of all. */
  found(): Told | null {
    const { times, column, rows } = this;
    if (times.size === 0 || times.size > mostValues) return null;
    const values = [...times].toSorted(([, a], [, b]) => b - a);
    const [usual] = values[0]!;
    const counts = values.map(([value, count]) => `${value || 'nothing'} in ${count}`).join(', ');
    if (wordsOf(column.name).some((word) => multiplier.has(word))) {
      if (values.every(([value]) => isOne(value))) return null;
      return {
        found: `column ${column.name} with ${counts} of ${rows} rows: by its name the readings are to be multiplied by it`,
        expected: 'readings in the unit of their column',
        mend: `multiply them by ${column.name} before`,
      };
    }
    if (times.size === 1) return null;
    return {
      found: `column ${column.name} with ${counts} of ${rows} rows: by its name it says which readings hold`,
      expected: 'readings that hold',
      mend: `take those that do, such as --where ${quotedName(`${column.name}=${usual}`)}`,
    };
  }
}

function isOne(cell: string): boolean {
  const read = readNumberCell(cell, null);
  return cell === '' || (read.kind === 'number' && read.value === 1);
}
