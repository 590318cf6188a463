import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { decodeBundle } from '../../src/bundle/decode.ts';
import { encodeBundle } from '../../src/bundle/encode.ts';
import type { Manifest } from '../../src/bundle/format.ts';
import { manifestOf } from '../../src/bundle/manifest-of.ts';
import { manifestText, readManifestText } from '../../src/bundle/manifest-text.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { edits, type Tree } from '../fixtures/tree-edits.ts';

const run = syntheticRun(0.2);
const encoded = encodeBundle(run);
const whole = manifestOf(run, encoded);

/** Two channels and two columns are enough to change each byte of. */
const small: Manifest = {
  ...whole,
  wake: { ...whole.wake, channels: whole.wake.channels.slice(0, 2) },
  columns: whole.columns.slice(0, 2),
};

/** How a manifest's text is refused; null where it is read. Anything but BadInput is a mistake and thrown on. */
function refusal(bytes: Uint8Array): BadInput | null {
  try {
    readManifestText(bytes, 'manifest.json');
    return null;
  } catch (error) {
    if (error instanceof BadInput) return error;
    throw error;
  }
}

describe('a manifest', () => {
  const bytes = manifestText(small);

  it('comes back as it was written', () => {
    expect(readManifestText(bytes, 'manifest.json')).toEqual(small);
    expect(JSON.parse(new TextDecoder().decode(bytes)).sum).toMatch(/^[0-9a-f]{64}$/);
  });

  it.each([
    ['its lowest bit', (byte: number) => byte ^ 1],
    ['upper to lower case', (byte: number) => byte ^ 0x20],
    ['its highest bit', (byte: number) => byte ^ 0x80],
    ['zero', () => 0],
    ['another digit or letter', (byte: number) => (byte === 0x31 ? 0x32 : 0x31)],
  ] as const)('is refused where any one byte has changed: %s', (_what, change) => {
    const accepted: number[] = [];
    for (let k = 0; k < bytes.length; k += 1) {
      const changed = bytes.slice();
      changed[k] = change(bytes[k]!);
      if (refusal(changed) === null) accepted.push(k);
    }
    expect(accepted).toEqual([]);
  });

  it('is refused where it is cut short or longer by a byte', () => {
    const lengths = [0, 1, 40, 80, bytes.length - 80, bytes.length - 1];
    for (const length of lengths) expect(refusal(bytes.subarray(0, length))).not.toBeNull();
    for (const more of ['\n', ' ', '\0']) {
      const text = new TextDecoder().decode(bytes);
      expect(refusal(new TextEncoder().encode(text + more))).not.toBeNull();
      expect(refusal(new TextEncoder().encode(more + text))).not.toBeNull();
    }
    expect(refusal(Uint8Array.of(0xef, 0xbb, 0xbf, ...bytes))).not.toBeNull();
  });

  it('says that its sum does not fit, and what to do', () => {
    const text = new TextDecoder().decode(bytes).replace('"buckets": ', '"buckets": 1');
    expect(refusal(new TextEncoder().encode(text))?.message).toMatchInlineSnapshot(`
      "manifest.json
        found     text that does not match the checksum at its end
        expected  the manifest as it was written
        mend      it was cut short or changed after it was written: run the scenario again with --out
      1 problem. Nothing was run."
    `);
  });

  it('of the first format is refused with how to make a new one', () => {
    const old = new TextEncoder().encode(
      '{\n "format": "buswake-bundle",\n "version": 1,\n "files": []\n}\n',
    );
    expect(refusal(old)?.message).toMatchInlineSnapshot(`
      "manifest.json
        found     format version 1
        expected  format version 4
        mend      it does not hold all that is read of a run now: run the scenario again with --out
      1 problem. Nothing was run."
    `);
  });
});

describe('a manifest edited with its sum made right', () => {
  it('is read, or refused with a named problem, and so is the bundle it describes', () => {
    let count = 0;
    let read = 0;
    for (const { what, tree } of edits(JSON.parse(JSON.stringify(whole)) as Tree)) {
      count += 1;
      try {
        // An edited manifest is no manifest for the compiler: it is what might lie on a disk.
        const manifest = readManifestText(manifestText(tree as unknown as Manifest), 'manifest.json');
        decodeBundle(manifest, encoded.files);
        read += 1;
      } catch (error) {
        if (!(error instanceof BadInput)) throw new Error(`${what}: ${String(error)}`, { cause: error });
        const { file, found, expected, mend } = error.problems[0]!;
        expect([file, found, expected, mend].every((word) => word !== undefined && word !== '')).toBe(true);
      }
    }
    expect(count).toBeGreaterThan(500);
    // What can still be read: other words for what a file holds, another name of a tool, build, owner or kind.
    expect(read / count).toBeLessThan(0.1);
  });

  it.each([
    ['a list is null', { files: null }],
    ['channels are null', { wake: { ...whole.wake, channels: null } }],
    ['a file is outside of the bundle', { files: [...whole.files, { ...whole.files[0], name: '../x' }] }],
    ['an input lies outside of the bundle', { inputs: [{ ...whole.inputs[0], file: 'inputs/../../x' }] }],
    ['a file is missing from the list', { files: whole.files.slice(1) }],
    ['there is a field that nobody knows', { colour: 'blue' }],
  ])('is refused where %s', (_what, edit) => {
    const bytes = manifestText({ ...whole, ...edit } as unknown as Manifest);
    expect(refusal(bytes)?.problems).toHaveLength(1);
  });
});
