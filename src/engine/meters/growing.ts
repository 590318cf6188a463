/** A column of numbers that grows by doubling: for what is kept at a fixed low rate. */
export class Growing {
  private store = new Float64Array(1024);
  length = 0;

  push(value: number): void {
    if (this.length === this.store.length) {
      const wider = new Float64Array(2 * this.store.length);
      wider.set(this.store);
      this.store = wider;
    }
    this.store[this.length++] = value;
  }

  values(): Float64Array {
    return this.store.subarray(0, this.length);
  }
}
