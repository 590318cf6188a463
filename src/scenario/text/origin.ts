/** Where a value stands in the user's files. */
export interface Origin {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}
