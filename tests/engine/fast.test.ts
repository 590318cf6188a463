/**
 * The compiled kernel against the plain loops: the same bits, in every branch the scenarios reach, and proof
 * that it was the compiled one that ran. Tolerance: none.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileKernel } from '../../scripts/build-kernel.ts';
import { readTextFile } from '../../src/cli/files.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { kernelBase64 } from '../../src/engine/fast/kernel-bytes.ts';
import type { Result } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import type { KernelChoice } from '../../src/engine/fast/kernel-form.ts';
import { levelsOf } from '../../src/limits/levels.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { readScenario } from '../../src/scenario/read.ts';

function scenarioOf(name: string, changes: readonly (readonly [string, string])[]) {
  return readScenario(`scenarios/${name}.yaml`, {
    files: readTextFile,
    changes: changes.map(([path, value]) => ({ path, value })),
  }).scenario;
}

function bits(result: Result): string {
  const hash = createHash('sha256');
  const eat = (column: Float32Array | Float64Array | Uint32Array): void => {
    hash.update(new Uint8Array(column.buffer, column.byteOffset, column.byteLength));
  };
  for (const column of [...result.recording.min, ...result.recording.max]) eat(column);
  for (const stream of result.streams) eat(stream.samples);
  for (const column of Object.values(result.stays.normal)) eat(column);
  hash.update(JSON.stringify([result.audit, result.extremes, result.meanSquares, result.log, result.share]));
  return hash.digest('hex');
}

function runWith(
  kernel: KernelChoice,
  name: string,
  changes: readonly (readonly [string, string])[],
): Result {
  const scenario = scenarioOf(name, changes);
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V, kernel });
}

describe('the compiled kernel', () => {
  it.each([
    ['single-step', [['duration', '0.3 s']]],
    ['shelf-trip', [['duration', '0.3 s']]],
    ['link-bar-out', [['duration', '5.2 s']]],
    ['ac-loss-and-return', [['duration', '5.8 s']]],
    ['end-of-life', [['duration', '1.6 s']]],
    [
      'single-step',
      [
        ['duration', '0.3 s'],
        ['shelves.line_ripple', '100 %'],
      ],
    ],
  ] as const)('gives the same bits as the plain loops on %s', (name, changes) => {
    expect(bits(runWith('fast', name, changes))).toBe(bits(runWith('plain', name, changes)));
  });

  it('is the one that runs unless the plain one is asked for', () => {
    const scenario = scenarioOf('single-step', []);
    const kernelOf = (kernel?: KernelChoice) =>
      ready(assemble(scenario), makeDemand(scenario), 1, kernel).stepper.kernel;
    expect(kernelOf()).toBe('fast');
    expect(kernelOf('plain')).toBe('plain');
  });

  it('is what its source compiles to', async () => {
    expect(kernelBase64).toBe(await compileKernel());
  });

  it('names its directory as its loader does, in the same order', () => {
    const source = readFileSync('src/engine/fast/kernel/step.ts', 'utf8');
    const loader = readFileSync('src/engine/fast/fast-kernel.ts', 'utf8');
    const inSource = [...source.matchAll(/\b([A-Z][A-Z0-9_]*) = (\d+)(?=[,;])/g)]
      .map(([, name, place]) => ({ name: name!, place: Number(place) }))
      .filter(({ name }) => !/^[RB]_/.test(name) && !['RESULT', 'BASE', 'MOST_SOLVES'].includes(name));
    const inLoader = [...loader.matchAll(/\['([A-Z][A-Z0-9_]*)', /g)].map(([, name]) => name);
    expect(inSource.map(({ place }) => place)).toEqual(inSource.map((_, k) => k));
    expect(inSource.map(({ name }) => name)).toEqual(inLoader);
  });
});
