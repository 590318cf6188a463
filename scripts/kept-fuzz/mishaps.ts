/** What a disk, a copy or a hand does to kept files: each mishap changes, removes or exchanges some of them. */
import type { Draw } from '../random-cabinets/draw.ts';

type Files = ReadonlyMap<string, Buffer>;

/** The files that differ afterwards; null where one is gone. */
export type Changed = ReadonlyMap<string, Buffer | null>;

type OnBytes = (bytes: Buffer, draw: Draw) => Buffer;

const onBytes: readonly OnBytes[] = [
  (bytes, draw) => {
    const spoilt = Buffer.from(bytes);
    spoilt[draw.whole(0, bytes.length - 1)]! ^= draw.whole(1, 255);
    return spoilt;
  },
  (bytes, draw) => bytes.subarray(0, draw.whole(0, bytes.length - 1)),
  (bytes, draw) => Buffer.concat([bytes, bytes.subarray(0, draw.whole(1, 64))]),
  (bytes, draw) => {
    const at = draw.whole(0, bytes.length - 1);
    return Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + draw.whole(1, 64))]);
  },
  (bytes, draw) => {
    const [at, length] = [draw.whole(0, bytes.length - 1), draw.whole(1, 4096)];
    const spoilt = Buffer.from(bytes);
    spoilt.fill(0, at, Math.min(bytes.length, at + length));
    return spoilt;
  },
  (bytes, draw) => {
    const lines = bytes.toString('latin1').split('\n');
    const at = draw.whole(0, lines.length - 1);
    lines.splice(at, draw.whole(0, 2), ...(draw.chance(0.5) ? [draw.pick(lines)] : []));
    return Buffer.from(lines.join('\n'), 'latin1');
  },
  (bytes, draw) => {
    const text = bytes.toString('latin1');
    const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)];
    if (numbers.length === 0) return Buffer.alloc(0);
    const { index, 0: was } = draw.pick(numbers);
    return Buffer.from(text.slice(0, index) + draw.whole(0, 99) + text.slice(index + was.length), 'latin1');
  },
];

/** One mishap: to the bytes of one file, or to which file has which name. */
export function mishap(files: Files, draw: Draw): Changed {
  const names = [...files.keys()];
  const name = draw.pick(names);
  if (draw.chance(0.05)) return new Map([[name, null]]);
  if (draw.chance(0.05)) {
    const other = draw.pick(names);
    return new Map([
      [name, files.get(other)!],
      [other, files.get(name)!],
    ]);
  }
  return new Map([[name, draw.pick(onBytes)(files.get(name)!, draw)]]);
}
