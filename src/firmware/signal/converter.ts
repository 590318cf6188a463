/**
 * An analogue-to-digital converter: a value from 0 up to its range, in whole steps of range/2^bits, rounded to the nearest.
 * What is below 0 it shows as 0, what is above as its last step. With 0 bits it is exact and without an end.
 */
export class Converter {
  /** One step, in the unit of what it converts; 0 for none. */
  readonly step: number;
  private readonly last: number;

  constructor(bits: number, range: number) {
    const steps = 1 << bits;
    this.step = bits > 0 ? range / steps : 0;
    this.last = steps - 1;
  }

  read(value: number): number {
    if (this.step === 0) return value;
    const steps = Math.round(value / this.step);
    return (steps < 0 ? 0 : steps > this.last ? this.last : steps) * this.step;
  }
}
