import { expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { decodeBundle } from '../../src/bundle/decode.ts';
import { encodeBundle } from '../../src/bundle/encode.ts';
import type { FileName } from '../../src/bundle/format.ts';
import { manifestOf } from '../../src/bundle/manifest-of.ts';
import { syntheticRun } from '../fixtures/run.ts';
import { edits, type Tree } from '../fixtures/tree-edits.ts';

type Fields = Readonly<Record<string, unknown>>;

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

it.each([
  ['a verdict of its own', 'verdict', (report: Fields) => ({ ...report, verdict: 'bogus' })],
  ['a finding judged otherwise', 'findings.1.verdict', first({ verdict: 'excellent' })],
  ['a finding whose headroom is a text', 'findings.1.headroom_ratio', first({ headroom_ratio: '40 %' })],
  ['metrics that are a text', 'metrics', (report: Fields) => ({ ...report, metrics: 'fine' })],
  ['a summary that is a number', 'summary', (report: Fields) => ({ ...report, summary: 5 })],
  ['another version', 'schema_version', (report: Fields) => ({ ...report, schema_version: 3 })],
  ['a field that nobody reads', 'approved', (report: Fields) => ({ ...report, approved: true })],
  ['no basis', 'basis', ({ basis: _, ...report }: Fields) => report],
])('a report with %s is refused at its place', (_, path, edit) => {
  const report = JSON.parse(new TextDecoder().decode(encoded.files.get('report.json')!)) as Fields;
  const text = JSON.stringify(edit(report));
  const files = new Map(encoded.files).set('report.json', new TextEncoder().encode(text));
  expect(() => decodeBundle(manifest, files)).toThrow(`report.json  ${path}\n`);
});

/** The report with these fields in its first finding. */
function first(fields: Fields) {
  return (report: Fields): Fields => {
    const [finding, ...rest] = report.findings as readonly Fields[];
    return { ...report, findings: [{ ...finding, ...fields }, ...rest] };
  };
}
