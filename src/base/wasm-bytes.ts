/** WebAssembly as bytes: what modules are written of that are made outside of a compiler. */

/** What every module begins with: its mark, and version 1 of the format. */
export const beginning: readonly number[] = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0];

/** Numbers of the sections that are written or read here. */
export const section = { type: 1, import: 2, function: 3, export: 7, code: 10 } as const;

/** A number without a sign as WebAssembly writes it: seven bits a byte, the lowest first. */
export function unsigned(value: number): number[] {
  const bytes: number[] = [];
  let left = value >>> 0;
  do {
    const more = left > 127 ? 128 : 0;
    bytes.push((left & 127) | more);
    left >>>= 7;
  } while (left > 0);
  return bytes;
}

/** A name, and a list, each with its length before it. */
export const text = (letters: string): number[] => [
  ...unsigned(letters.length),
  ...[...letters].map((letter) => letter.charCodeAt(0)),
];
export const listed = (items: readonly (readonly number[])[]): number[] => [
  ...unsigned(items.length),
  ...items.flat(),
];
