/** A place of a law that holds numbers of one format: a field, a name, the result of a function or of one operation. */

export type StepKind = 'moved' | 'sum' | 'product' | 'quotient';

export interface Slot {
  /** As the text of the law has it. */
  readonly name: string;
  /** `Structure.field` of what the law takes and gives, the name alone of a column; null of what only the law sees. */
  readonly field: string | null;
  /** The coefficient that bounds it, where its text says so (`@within`). */
  readonly within: string | null;
  /** Its value, where it is a constant of the text. */
  readonly value: number | null;
  /** What may come to stand in it, by the numbers of other places. */
  readonly made: { readonly how: StepKind; readonly of: readonly number[] }[];
}
