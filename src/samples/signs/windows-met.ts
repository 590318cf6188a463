/** Windows of samples that were met, found again by their hash. */

/** Places of windows by their hash; of several with one hash the first is kept. */
export class WindowsMet {
  private readonly hashes: Int32Array;
  /** Place of the window and 1; 0 where none is. */
  private readonly places: Int32Array;
  private readonly mask: number;

  constructor(count: number) {
    let size = 16;
    while (size < 2 * count) size *= 2;
    this.hashes = new Int32Array(size);
    this.places = new Int32Array(size);
    this.mask = size - 1;
  }

  find(hash: number): number {
    return this.places[this.slot(hash)]! - 1;
  }

  keep(hash: number, place: number): void {
    const slot = this.slot(hash);
    if (this.places[slot] !== 0) return;
    this.hashes[slot] = hash;
    this.places[slot] = place + 1;
  }

  private slot(hash: number): number {
    let slot = (hash ^ (hash >>> 16)) & this.mask;
    while (this.places[slot] !== 0 && this.hashes[slot] !== hash) slot = (slot + 1) & this.mask;
    return slot;
  }
}
