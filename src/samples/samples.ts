/** Samples kept in one block; blocks never move, so that growing costs no copy. */
const blockLength = 1 << 16;

/** Samples in the order they arrive: two columns of numbers in blocks, handed over once as whole columns. */
export class Samples {
  length = 0;
  private times: Float64Array[] = [];
  private powers: Float64Array[] = [];
  private time = new Float64Array(0);
  private power = new Float64Array(0);
  private used = 0;
  private readonly holes: number[] = [];
  private open = false;

  /** A sample was here and is not one. Of several between two samples one is kept. */
  hole(time_s: number): void {
    if (!this.open) this.holes.push(time_s);
    this.open = true;
  }

  add(time_s: number, power_W: number): void {
    if (this.used === this.time.length) this.grow();
    this.time[this.used] = time_s;
    this.power[this.used] = power_W;
    this.used++;
    this.length++;
    this.open = false;
  }

  /** The columns, whole. The blocks are let go one by one; the samples are then empty. */
  take(): {
    readonly time_s: Float64Array;
    readonly power_W: Float64Array;
    readonly holes_s: readonly number[];
  } {
    const { length, holes } = this;
    this.time = this.power = new Float64Array(0);
    this.length = this.used = 0;
    const time_s = joined(this.times, length);
    const power_W = joined(this.powers, length);
    return { time_s, power_W, holes_s: holes };
  }

  private grow(): void {
    // Few samples need no whole block.
    const size = this.times.length === 0 ? 1024 : blockLength;
    this.time = block(size);
    this.power = block(size);
    this.times.push(this.time);
    this.powers.push(this.power);
    this.used = 0;
  }
}

function joined(blocks: Float64Array[], length: number): Float64Array {
  const whole = new Float64Array(length);
  let at = 0;
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i]!;
    const part = Math.min(block.length, length - at);
    whole.set(part === block.length ? block : block.subarray(0, part), at);
    at += part;
    // The memory goes back at once, before the next block is copied; the collector would come too late.
    (block.buffer as Resizable).resize(0);
  }
  blocks.length = 0;
  return whole;
}

/** A buffer that can be shrunk, as engines of 2023 and later have it. */
interface Resizable extends ArrayBuffer {
  resize(byteLength: number): void;
}

function block(length: number): Float64Array<ArrayBuffer> {
  const options = { maxByteLength: 8 * length };
  const make = ArrayBuffer as unknown as new (byteLength: number, options: object) => ArrayBuffer;
  return new Float64Array(new make(8 * length, options));
}
