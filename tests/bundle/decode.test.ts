import { expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { decodeBundle } from '../../src/bundle/decode.ts';
import { encodeBundle } from '../../src/bundle/encode.ts';
import type { FileName } from '../../src/bundle/format.ts';
import { manifestOf } from '../../src/bundle/manifest-of.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { edits, type Tree } from '../fixtures/tree-edits.ts';

const run = syntheticRun(0.2);
const encoded = encodeBundle(run);
const manifest = manifestOf(run, encoded);

it.each([
  ['request.json', 9],
  ['readings.json', 2],
  ['report.json', 1],
  ['scenario.json', 1],
  ['log.json', 1],
] as const)('%s, edited by hand, is read or refused with a named problem', (name: FileName, deepest) => {
  const text = new TextDecoder().decode(encoded.files.get(name)!);
  for (const { what, tree } of edits(JSON.parse(text) as Tree, deepest)) {
    const files = new Map(encoded.files).set(name, new TextEncoder().encode(JSON.stringify(tree)));
    try {
      decodeBundle(manifest, files);
    } catch (error) {
      if (!(error instanceof BadInput)) throw new Error(`${what}: ${String(error)}`, { cause: error });
      expect(error.problems[0]!.file).toMatch(/^(\w+\.json|streams\.f64)$/);
    }
  }
});

it.each(['', 'null', '[]', '7', '{"a":', '\u0000'])(
  'a file of JSON that holds %j is refused by name',
  (text) => {
    for (const name of ['request.json', 'report.json', 'scenario.json', 'readings.json'] as const) {
      const files = new Map(encoded.files).set(name, new TextEncoder().encode(text));
      expect(() => decodeBundle(manifest, files)).toThrow(BadInput);
      expect(() => decodeBundle(manifest, files)).toThrow(name);
    }
  },
);

it('a report of which a finding is none is refused at its place', () => {
  const report = JSON.parse(new TextDecoder().decode(encoded.files.get('report.json')!)) as {
    findings: unknown[];
  };
  for (const finding of [null, {}, { id: 7, title: 'x', verdict: 'pass' }]) {
    const text = JSON.stringify({ ...report, findings: [finding, ...report.findings] });
    const files = new Map(encoded.files).set('report.json', new TextEncoder().encode(text));
    expect(() => decodeBundle(manifest, files)).toThrow('findings.1');
  }
});
