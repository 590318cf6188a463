/**
 * A run and its judgement have the same bits in every engine: IEEE 754 fixes + − × ÷ √ to the last bit, and no more. Node 20
 * and today's Chromium differ in every function of `Math` below and in `**`, so the rooms that a run passes through take
 * those of `src/base/` instead.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const root = new URL('../../src/', import.meta.url).pathname;

const rooms = [
  ...['base', 'scenario', 'tables', 'samples', 'loads', 'events', 'channels', 'nodal', 'devices', 'firmware'],
  ...['dense', 'network', 'engine', 'linear', 'limits', 'analysis', 'measured', 'request'],
];

const inexact =
  /\bMath\.(?:a?cosh?|a?sinh?|a?tanh?|atan2|cbrt|exp|expm1|log|log10|log1p|log2|pow)\b|\S+ \*\* (?!2\b)\S+/g;

/** Squares are products, whole powers of two are exact. */
const isExact = (found: string): boolean => /^(?:10n|2|\(2) \*\* (?:\d+|k|-\d+|BigInt\(.*)/.test(found);

it('no room that a run passes through uses what differs between engines', () => {
  const found = rooms.flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts') && !name.includes('made/'))
      .flatMap((name) => {
        const code = readFileSync(join(root, room, name), 'utf8').replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
        return [...code.matchAll(inexact)]
          .map(([use]) => use)
          .filter((use) => !isExact(use))
          .map((use) => `${room}/${name}: ${use}`);
      }),
  );
  expect(found).toEqual([]);
});
