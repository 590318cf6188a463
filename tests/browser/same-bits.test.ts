/**
 * The same bits in Node and in Chromium: the kernels use + − × ÷ √ alone, which IEEE 754 fixes to the last bit;
 * what else enters a run (settled start, load, meters) is computed once by functions that both take from V8.
 * Compared are the recording, every stream, extremes, mean squares, audit, log and counters of a run.
 */
import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { asInPages } from '../../scripts/pages.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { type Texts, type Told, told } from './bits.ts';
import { launch } from './browser.ts';

let browser: Browser;
let script: string;

beforeAll(async () => {
  browser = await launch();
  const { outputFiles } = await build({
    entryPoints: [new URL('./bits.ts', import.meta.url).pathname],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    logLevel: 'silent',
    plugins: [asInPages],
  });
  script = outputFiles[0]!.text;
});

afterAll(() => browser?.close());

/** What a scenario reads, file by file. */
function textsOf(file: string): Texts {
  const texts: Record<string, string> = {};
  readScenario(file, {
    files: (path) => {
      texts[path] = readFileSync(path, 'utf8');
      return { text: texts[path], sha256: '0' };
    },
  });
  return texts;
}

it.each([
  ['pulse-train', [{ path: 'duration', value: '1.6 s' }], 'fast'],
  ['single-step', [{ path: 'duration', value: '0.3 s' }], 'plain'],
  [
    'ac-loss-and-return',
    [
      { path: 'events.1.at', value: '10 ms' },
      { path: 'events.2.at', value: '0.3 s' },
      { path: 'duration', value: '0.5 s' },
    ],
    'fast',
  ],
  [
    'training-iterations',
    [
      { path: 'duration', value: '2 s' },
      { path: 'warm_up', value: '0.5 s' },
    ],
    'fast',
  ],
] as const)('%s comes out of Chromium as it comes out of Node, to the bit', async (name, changes, kernel) => {
  const file = `scenarios/${name}.yaml`;
  const texts = textsOf(file);
  const here = told(texts, file, changes, kernel);
  const page = await browser.newPage();
  await page.addScriptTag({ content: script });
  const there = (await page.evaluate(
    ([t, f, c, k]) => (globalThis as unknown as { told: typeof told }).told(t, f, c, k),
    [texts, file, changes, kernel] as const,
  )) as Told;
  await page.close();
  expect(here.steps).toBeGreaterThan(1000);
  expect(here.values).toBeGreaterThan(10_000);
  expect(there).toEqual(here);
});
