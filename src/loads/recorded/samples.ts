/** Samples in the order they arrive: two columns that grow by doubling. */
export class Samples {
  length = 0;
  private times = new Float64Array(1024);
  private powers = new Float64Array(1024);

  add(time_s: number, power_W: number): void {
    if (this.length === this.times.length) {
      this.times = grown(this.times);
      this.powers = grown(this.powers);
    }
    this.times[this.length] = time_s;
    this.powers[this.length] = power_W;
    this.length++;
  }

  get time_s(): Float64Array {
    return this.times.subarray(0, this.length);
  }

  get power_W(): Float64Array {
    return this.powers.subarray(0, this.length);
  }
}

function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const twice = new Float64Array(column.length * 2);
  twice.set(column);
  return twice;
}
