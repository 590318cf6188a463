/** Which shelves went, when and why: what a collapse of the bus is explained with. */
export class LostShelves {
  private readonly why: string[];
  private readonly at: Float64Array;
  private readonly names: readonly string[];
  private readonly tick_s: number;

  constructor(names: readonly string[], tick_s: number) {
    this.names = names;
    this.tick_s = tick_s;
    this.why = names.map(() => '');
    this.at = new Float64Array(names.length);
  }

  /** Shelf k went at `tick`. */
  note(k: number, tick: number, why: string): void {
    this.why[k] = why;
    this.at[k] = tick;
  }

  /** Of these shelves, the one that went last. */
  lastOf(shelves: readonly number[]): { readonly name: string; readonly tick: number } {
    const k = this.inOrder(shelves).at(-1)!;
    return { name: this.names[k]!, tick: this.at[k]! };
  }

  /** These shelves in the order in which they went, since when and why, to be added to a sentence. */
  words(shelves: readonly number[]): string {
    const told = this.inOrder(shelves).map((k) => {
      const at_s = Number((this.at[k]! * this.tick_s).toFixed(4));
      return `${this.names[k]} from ${at_s} s (${this.why[k]})`;
    });
    return told.length === 0 ? '' : `; out: ${told.join(', ')}`;
  }

  private inOrder(shelves: readonly number[]): number[] {
    return shelves.toSorted((a, b) => this.at[a]! - this.at[b]! || a - b);
  }
}
