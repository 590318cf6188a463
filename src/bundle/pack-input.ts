/** An input's bytes as a file of the bundle, and back. Texts stay readable; what is long is gzipped. */
import { gunzipSync, gzipSync } from 'node:zlib';
import { BadInput } from '../problem.ts';
import { inputName } from '../request/input-source.ts';
import { inputsFolder, type KeptInput } from './format.ts';

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
  const name = inputName(path).split('/').at(-1)!.replaceAll(/[^\w.-]/g, '_');
  const gzip = bytes.length > longestPlain;
  const file = `${inputsFolder}/${String(number).padStart(2, '0')}-${name}${gzip ? '.gz' : ''}`;
  return { path, sha256, file, gzip, content: gzip ? gzipSync(bytes) : bytes };
}

/** The bytes as they were read. Throws BadInput where they cannot be unpacked. */
export function unpackInput({ path, sha256, file, gzip, content }: KeptInput): ReadInput {
  try {
    return { path, sha256, bytes: gzip ? gunzipSync(content) : content };
  } catch (error) {
    throw new BadInput([
      {
        severity: 'error',
        file,
        found: `bytes that are not gzipped (${(error as Error).message})`,
        expected: `the input ${path}, gzipped`,
        mend: 'run the scenario again with --out',
      },
    ]);
  }
}
