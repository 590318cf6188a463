/** Trials as they are kept: what was changed in them afterwards is found. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { lineOf, readOutcomes, readStore, storeName } from '../../../src/studies/bench/kept-lines.ts';
import { Store } from '../../../src/studies/bench/store.ts';
import { passed } from '../../fixtures/outcome.ts';

const folder = mkdtempSync(join(tmpdir(), 'trials-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('a line in which any one character was changed is found by its place, and no table is made of it', () => {
  const path = join(folder, storeName);
  Store.open(folder, { study: 'of the test' } as never, 'new').add('a', { kind: 'run', outcome: passed });
  const whole = readFileSync(path, 'utf8');
  expect(readStore(path).lines).toEqual([{ key: 'a', kind: 'run', outcome: passed }]);
  const begins = whole.indexOf('\n') + 1;
  for (let k = begins; k < whole.length - 1; k += 7) {
    const other = whole[k] === 'a' ? 'b' : 'a';
    writeFileSync(path, whole.slice(0, k) + other + whole.slice(k + 1));
    expect(readStore(path), `character ${k - begins}`).toMatchObject({ lines: [], spoilt: [2] });
  }
  writeFileSync(path, whole + lineOf({ key: 'b', kind: 'run', outcome: passed }).replace('pass', 'fail'));
  expect(readStore(path)).toMatchObject({ lines: [{ key: 'a' }], spoilt: [3] });
  expect(() => readOutcomes(folder)).toThrow(`${storeName}:3`);
});
