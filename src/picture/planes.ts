/** Numbers of sixteen bits as two planes of bytes: first every low one, then every high one. */

export class PlaneWriter {
  private readonly parts: number[] = [];

  put(value: number): void {
    this.parts.push(value);
  }

  bytes(): Uint8Array {
    const n = this.parts.length;
    const bytes = new Uint8Array(2 * n);
    this.parts.forEach((value, k) => {
      bytes[k] = value & 255;
      bytes[n + k] = value >> 8;
    });
    return bytes;
  }
}

export class PlaneReader {
  private readonly bytes: Uint8Array;
  private readonly half: number;
  private at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    this.half = bytes.length / 2;
  }

  take(): number {
    if (this.at >= this.half) throw new RangeError('the picture holds fewer numbers than its head says');
    const value = this.bytes[this.at]! | (this.bytes[this.half + this.at]! << 8);
    this.at += 1;
    return value;
  }
}
