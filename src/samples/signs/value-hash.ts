/** Values as whole numbers that differ where any of their bits do, nearly always. */
const number = new DataView(new ArrayBuffer(8));

/** A hash of a value, of all its bits. */
export function hashOf(value: number): number {
  number.setFloat64(0, value);
  let h = Math.imul(number.getInt32(0) ^ Math.imul(number.getInt32(4), 0x85ebca6b), 0xc2b2ae35);
  h ^= h >>> 15;
  return Math.imul(h, 0x27d4eb2f) ^ (h >>> 13);
}
