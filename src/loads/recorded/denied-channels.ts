/** Rows of several devices in a file of which it was said that no column names channels. */

/** One device in turns, a phase of a job for example, changes its name rarely; several change it with the rows. */
const often_ratio = 0.1;
const mostNames = 1024;
const fewest = 20;

export class DeniedChannels {
  private readonly index: number;
  private readonly column: string;
  private readonly names = new Set<string>();
  private last = '';
  private last_s = Number.NEGATIVE_INFINITY;
  private rows = 0;
  private changes = 0;
  private back = 0;

  constructor(index: number, column: string) {
    this.index = index;
    this.column = column;
  }

  meet(row: readonly string[], time_s: number): void {
    const name = (row[this.index] ?? '').trim();
    if (this.names.size < mostNames) this.names.add(name);
    if (this.rows > 0 && name !== this.last) {
      this.changes++;
      if (time_s < this.last_s) this.back++;
    }
    this.rows++;
    this.last = name;
    this.last_s = time_s;
  }

  /** What was found; null where the rows may be of one device. */
  found(): string | null {
    const { rows, changes, back, names } = this;
    // Blocks of one device after the other go back in time with the name.
    const isOne = changes < often_ratio * rows && back < Math.min(2, changes);
    if (rows < fewest || names.size < 2 || names.size > rows / 2 || isOne) return null;
    const some = [...names].slice(0, 3).join(', ');
    return `column ${this.column} with ${names.size === mostNames ? `${mostNames} or more` : names.size} values (${some}${names.size > 3 ? ', …' : ''}) that change ${changes} times in ${rows} rows, read as one device as stated (--channel none)`;
  }
}
