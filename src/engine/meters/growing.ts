/** A column of numbers that grows by blocks: for what is kept at a fixed low rate. Nothing is copied until it is read. */

/** The first blocks double up to the last length; an hour at 1 kHz takes 28.8 MB. */
const firstBlock = 1024;
const largestBlock = 65_536;

export class Growing {
  private full: Float64Array[] = [];
  private block: Float64Array;
  private used = 0;
  private before = 0;

  /** `expected`: so many are made room for at once; what is not written costs no memory. */
  constructor(expected = 0) {
    this.block = new Float64Array(expected);
  }

  get length(): number {
    return this.before + this.used;
  }

  push(value: number): void {
    if (this.used === this.block.length) {
      if (this.used > 0) this.full.push(this.block);
      this.before += this.used;
      this.block = new Float64Array(Math.max(firstBlock, Math.min(2 * this.used, largestBlock)));
      this.used = 0;
    }
    this.block[this.used++] = value;
  }

  /** All values in one piece. Blocks are given back; what comes later begins a new one. */
  values(): Float64Array {
    const all = this.full.length === 0 ? this.block.subarray(0, this.used) : this.joined();
    this.full = [all];
    this.block = new Float64Array(0);
    this.before = all.length;
    this.used = 0;
    return all;
  }

  private joined(): Float64Array {
    const all = new Float64Array(this.length);
    let at = 0;
    for (const block of [...this.full, this.block.subarray(0, this.used)]) {
      all.set(block, at);
      at += block.length;
    }
    return all;
  }
}
