/** A matrix of which hardly any place is not nought, by those that are. */
export class Entries {
  readonly rows: number[] = [];
  readonly columns: number[] = [];
  readonly values: number[] = [];

  put(row: number, column: number, value: number): void {
    if (value === 0) return;
    this.rows.push(row);
    this.columns.push(column);
    this.values.push(value);
  }

  /** c += a times this: of a, `inner` wide, the rows that are named, of c `width` wide so many from its first on. */
  addAfter(c: Float64Array, width: number, a: Float64Array, inner: number, named: Int32Array): void {
    const { rows, columns, values } = this;
    for (let p = 0; p < values.length; p++) {
      const [row, column, x] = [rows[p]!, columns[p]!, values[p]!];
      for (let i = 0; i < named.length; i++) c[i * width + column]! += a[named[i]! * inner + row]! * x;
    }
  }

  /** y += this times x. */
  addApplied(y: Float64Array, x: Float64Array): void {
    const { rows, columns, values } = this;
    for (let p = 0; p < values.length; p++) y[rows[p]!]! += values[p]! * x[columns[p]!]!;
  }

  /** y += x times this. */
  addFolded(y: Float64Array, x: Float64Array): void {
    const { rows, columns, values } = this;
    for (let p = 0; p < values.length; p++) y[columns[p]!]! += x[rows[p]!]! * values[p]!;
  }
}
