import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { packInput } from '../../../src/bundle/pack-input.ts';
import { sha256 } from '../../../src/bundle/sum.ts';
import { readStudyInputs, writeStudyInputs } from '../../../src/cli/disk/study-inputs.ts';

const input = (path: string, text: string) => {
  const bytes = new TextEncoder().encode(text);
  return { path, sha256: sha256(bytes), bytes };
};
const packed = (...inputs: readonly ReturnType<typeof input>[]) =>
  inputs.map((one, k) => packInput(one, k + 1));
const folder = (): string => mkdtempSync(join(tmpdir(), 'study-inputs-'));
const long = input('loads/long.csv', '1,2\n'.repeat(50_000));

describe('inputs of a study', () => {
  it('come back as they were read, long ones too', () => {
    const dir = folder();
    const inputs = [input('a/b.yaml', 'one'), input('c/b.yaml', 'two'), long];
    writeStudyInputs(dir, packed(...inputs));
    const read = readStudyInputs(dir)!;
    expect(read.map(({ path, sha256: sum }) => [path, sum])).toEqual(
      inputs.map((one) => [one.path, one.sha256]),
    );
    expect(read.map(({ bytes }) => new TextDecoder().decode(bytes)[0])).toEqual(['o', 't', '1']);
    expect(readFileSync(join(dir, read[2]!.file)).length).toBeLessThan(long.bytes.length / 50);
  });

  it('take the place of those of the study before, and of nothing else', () => {
    const dir = folder();
    writeStudyInputs(dir, packed(input('a.yaml', 'one'), input('b.yaml', 'two')));
    writeFileSync(join(dir, 'inputs', 'mine.txt'), 'kept');
    writeStudyInputs(dir, packed(input('a.yaml', 'three')));
    expect(readStudyInputs(dir)!.map(({ path }) => path)).toEqual(['a.yaml']);
    expect(['02-b.yaml', 'mine.txt'].map((name) => existsSync(join(dir, 'inputs', name)))).toEqual([
      false,
      true,
    ]);
  });

  it('are none where a study was kept without them, and are refused where they were changed', () => {
    const dir = folder();
    expect(readStudyInputs(dir)).toBeNull();
    writeStudyInputs(dir, packed(input('a.yaml', 'one')));
    writeFileSync(join(dir, 'inputs', '01-a.yaml'), 'two');
    expect(() => readStudyInputs(dir)).toThrow('the input a.yaml, SHA-256');
    writeFileSync(join(dir, 'inputs.json'), '[{"path": "a.yaml"');
    expect(() => readStudyInputs(dir)).toThrow('a list');
    expect(() => readStudyInputs(dir)).toThrow('--out DIR --resume: it is written anew');
    // As the mend says: who carries the study out again writes over a spoilt list.
    writeStudyInputs(dir, packed(input('a.yaml', 'two')));
    expect(readStudyInputs(dir)!.map(({ path }) => path)).toEqual(['a.yaml']);
    const outside = [{ path: 'a', sha256: 'a'.repeat(64), file: '../a', gzip: false }];
    writeFileSync(join(dir, 'inputs.json'), JSON.stringify(outside));
    expect(() => readStudyInputs(dir)).toThrow('a file of the inputs');
  });
});
