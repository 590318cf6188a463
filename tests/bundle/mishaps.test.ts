/** A share of scripts/kept-fuzz.ts: what changed of a kept run or study is refused by name, and never read as something else. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { keep } from '../../scripts/kept-fuzz/kept.ts';
import { triedMishap } from '../../scripts/kept-fuzz/tried.ts';

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'mishaps-'));
});
afterAll(() => rmSync(root, { recursive: true }));

test.each(['run', 'study'] as const)('200 mishaps to a kept %s are refused, or change nothing', (kind) => {
  const kept = keep(kind, root);
  const endings = Array.from({ length: 200 }, (_, k) => ({ k, ...triedMishap(kept, 2, k) }));
  expect(endings.filter(({ ending }) => ending === 'wrong')).toEqual([]);
  expect(endings.filter(({ ending }) => ending === 'refused').length).toBeGreaterThan(150);
});
