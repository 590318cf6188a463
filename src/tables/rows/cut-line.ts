/**
 * Whether the last line of a text was cut while it was written: it has no line break, and ends in a cell that is used
 * and shorter than others of its column were, or lacks cells. What is left of a cut number is another number.
 */
export class CutLine {
  /** The line that was left out for it, 1-based; null where none was. */
  found: number | null = null;
  private readonly used: number;
  private widest = 0;
  private longest = 0;

  /** `used`: the cells of a row, from its first on, that hold all that is read of it. */
  constructor(used: number) {
    this.used = used;
  }

  /** Looks at a whole row. */
  meet(row: readonly string[]): void {
    if (row.length > this.widest) {
      this.widest = row.length;
      this.longest = 0;
    }
    const length = row.length === this.widest ? row[row.length - 1]!.length : 0;
    if (length > this.longest) this.longest = length;
  }

  /** Whether the row of a line without a line break is to be left out; kept in `found`. */
  holds(row: readonly string[], line: number): boolean {
    const isCut =
      row.length <= this.used && (row.length < this.widest || row[row.length - 1]!.length < this.longest);
    if (isCut) this.found = line;
    return isCut;
  }
}
