/** A matrix of which hardly any place is not nought: column by column, of each its rows in the order in which they were put. */
export class Entries {
  private readonly rows: number[] = [];
  private readonly values: number[] = [];
  /** Where each column begins, and where the last one ends. */
  private readonly starts: number[] = [0];

  /** Into the column that is being written. */
  put(row: number, value: number): void {
    if (value === 0) return;
    this.rows.push(row);
    this.values.push(value);
  }

  /** The column that is being written is whole. */
  end(): void {
    this.starts.push(this.rows.length);
  }

  get columns(): number {
    return this.starts.length - 1;
  }

  each(take: (row: number, column: number, value: number) => void): void {
    for (let j = 0; j < this.columns; j++) this.eachIn(j, (row, value) => take(row, j, value));
  }

  eachIn(column: number, take: (row: number, value: number) => void): void {
    const { rows, values, starts } = this;
    const end = starts[column + 1]!;
    for (let p = starts[column]!; p < end; p++) take(rows[p]!, values[p]!);
  }

  /** y += f times a column. */
  addColumn(y: Float64Array, column: number, f: number): void {
    const { rows, values, starts } = this;
    const end = starts[column + 1]!;
    for (let p = starts[column]!; p < end; p++) y[rows[p]!]! += values[p]! * f;
  }

  /** y += this times a column of another. */
  addProduct(y: Float64Array, other: Entries, column: number): void {
    other.eachIn(column, (row, value) => this.addColumn(y, row, value));
  }

  /** y += this times x. */
  addApplied(y: Float64Array, x: Float64Array): void {
    for (let j = 0; j < this.columns; j++) this.addColumn(y, j, x[j]!);
  }

  /** y += x times this. */
  addFolded(y: Float64Array, x: Float64Array): void {
    const { rows, values, starts } = this;
    for (let j = 0; j < this.columns; j++)
      for (let p = starts[j]!; p < starts[j + 1]!; p++) y[j]! += x[rows[p]!]! * values[p]!;
  }
}
