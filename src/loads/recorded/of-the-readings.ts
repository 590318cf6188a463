/**
 * Columns that say something of the readings beside them: which of them hold, or by what they are to be multiplied. Passed
 * over, wrong readings count, and right ones in the wrong scale.
 */
import { readNumberCell } from '../../tables/cells/number-cell.ts';
import { isPowerFactor, wordsOf } from '../../tables/columns/column-names.ts';
import { quotedName } from '../../tables/columns/column-report.ts';

const validity = new Set('valid validity invalid quality ok good bad stale suspect qc error'.split(' '));
const multiplier = new Set('multiplier multiplicator scale scaling factor gain exponent'.split(' '));
/** Words beside them that leave it the reading's own; any other word makes it that of something else, a link or a batch. */
const reading = new Set(
  'is flag sample reading readings data value power current voltage measurement'.split(' '),
);
/** Columns whose name leaves open what they say: their cells may. */
const states = new Set(['status', 'state', 'flag', 'condition']);
const faults = new Set('fault faulty error bad invalid stale suspect failed'.split(' '));
/** A note on readings takes few values; a column of many is a measured quantity. */
const mostValues = 4;

type Note = 'which hold' | 'times' | 'by its cells';

/** What a name says of the readings; null where it is the name of something else. */
function noteIn(name: string): Note | null {
  const words = wordsOf(name);
  const core = words.filter((word) => !reading.has(word));
  if (core.length === 0 ? words.join() === 'flag' : core.length === 1 && states.has(core[0]!))
    return 'by its cells';
  if (core.length === 0 || isPowerFactor(name)) return null;
  if (core.every((word) => validity.has(word))) return 'which hold';
  return core.every((word) => multiplier.has(word)) ? 'times' : null;
}

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
  return names.flatMap((name, index) =>
    noteIn(name) !== null && unused.includes(name) ? [{ index, name }] : [],
  );
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
    const note = noteIn(column.name)!;
    if (note === 'times') {
      // Nobody multiplies by words.
      if (values.some(([value]) => !isNumber(value)) || values.every(([value]) => isNumber(value, 1)))
        return null;
      return {
        found: `column ${column.name} with ${counts} of ${rows} rows: by its name the readings are to be multiplied by it`,
        expected: 'readings in the unit of their column',
        mend: `multiply them by ${column.name} before`,
      };
    }
    const says = note === 'which hold' ? 'by its name it says' : 'its cells say';
    if (
      times.size === 1 ||
      (note === 'by its cells' && !values.some(([value]) => faults.has(value.toLowerCase())))
    )
      return null;
    return {
      found: `column ${column.name} with ${counts} of ${rows} rows: ${says} which readings hold`,
      expected: 'readings that hold',
      mend: `take those that do, such as --where ${quotedName(`${column.name}=${usual}`)}`,
    };
  }
}

/** A number, or that number. */
function isNumber(cell: string, value?: number): boolean {
  const read = readNumberCell(cell, null);
  return read.kind === 'number' && (value === undefined || read.value === value);
}
