/** The bundle that the page carries. */
import { BadInput } from '../src/base/problem.ts';
import { decodeBundle } from '../src/bundle/decode.ts';
import { type Bundle, type Manifest, manifestName } from '../src/bundle/format.ts';
import { manifestFrom } from '../src/bundle/manifest-shape.ts';
import { carried } from './carried.ts';

/** Throws BadInput where it is not whole, not as it was packed, or of another version. */
export async function unpack(): Promise<Bundle> {
  const manifest = readManifest(await carried(manifestName));
  const files = new Map<string, Uint8Array>();
  for (const { name } of manifest.files) files.set(name, await carried(name));
  return decodeBundle(manifest, files);
}

function readManifest(bytes: Uint8Array): Manifest {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    throw new BadInput([
      {
        severity: 'error',
        file: manifestName,
        found: 'text that is not JSON',
        expected: 'the manifest of a bundle',
        mend: 'make the page anew with buswake view',
      },
    ]);
  }
  return manifestFrom(value, manifestName);
}
