/** An input's bytes as a file of the bundle, and back. Texts stay readable; what is long is gzipped. */
import { gunzipSync, gzipSync } from 'node:zlib';
import { BadInput } from '../base/problem.ts';
import { inputName } from '../request/input-source.ts';
import { inputsFolder, type KeptInput } from './format.ts';
import { sha256 as sumOf } from './sum.ts';

/** Longer inputs are gzipped [bytes]. Scenarios and models are a few thousand. */
const longestPlain = 1 << 16;

/** An input as it was read. */
export interface ReadInput {
  readonly path: string;
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

/** `number`: which input of the bundle it is, from 1. Two inputs may have one name. */
export function packInput({ path, sha256, bytes }: ReadInput, number: number): KeptInput {
  const name = inputName(path)
    .split('/')
    .at(-1)!
    .replaceAll(/[^\w.-]/g, '_');
  const gzip = bytes.length > longestPlain;
  const file = `${inputsFolder}/${String(number).padStart(2, '0')}-${name}${gzip ? '.gz' : ''}`;
  return { path, sha256, file, gzip, content: gzip ? gzipSync(bytes) : bytes };
}

/** The bytes as they were read. Throws BadInput where they cannot be unpacked or are not those that were summed. */
export function unpackInput({ path, sha256, file, gzip, content }: KeptInput): ReadInput {
  const bytes = gzip ? gunzipped(content) : content;
  const sum = bytes === null ? null : sumOf(bytes);
  if (bytes !== null && sum === sha256) return { path, sha256, bytes };
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: sum === null ? 'bytes that are not gzipped' : `SHA-256 ${sum}`,
      expected: `the input ${path}, SHA-256 ${sha256}${gzip ? ', gzipped' : ''}`,
      mend: 'the file was changed after it was written: run the scenario again with --out',
    },
  ]);
}

function gunzipped(content: Uint8Array): Uint8Array | null {
  try {
    return gunzipSync(content);
  } catch {
    return null;
  }
}
