/** A run told as one short word: what Node and the browser both execute to see whether they get the same bits. */

import type { KernelChoice } from '../../src/engine/fast/kernel-form.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { levelsOf } from '../../src/limits/levels.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';

/** Text of every file that a scenario names, by path. */
export type Texts = Readonly<Record<string, string>>;

/** Sums every bit it is given: two multiplicative hashes of 32 bits side by side. */
class Sum {
  private a = 0x811c9dc5;
  private b = 0x2545f491;

  bytes(bytes: Uint8Array): void {
    for (const byte of bytes) {
      this.a = Math.imul(this.a ^ byte, 0x01000193);
      this.b = Math.imul(this.b ^ byte, 0x5bd1e995);
      this.b ^= this.b >>> 15;
    }
  }

  get word(): string {
    return [this.a, this.b].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join('');
  }
}

export interface Told {
  readonly status: string;
  readonly steps: number;
  readonly values: number;
  readonly word: string;
}

/** Runs a scenario from the texts of its files; the word holds every number the run gives, to the bit. */
export function told(texts: Texts, file: string, changes: readonly Change[], kernel: KernelChoice): Told {
  const files = (path: string) => ({ text: texts[path]!, sha256: '0' });
  const { scenario } = readScenario(file, { files, changes: [...changes] });
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  const result = simulate(assemble(scenario), makeDemand(scenario), { levels_V, kernel });
  const { recording, streams, extremes, meanSquares, audit, log, counters, status } = result;
  const sum = new Sum();
  let values = 0;
  for (const column of [
    recording.edges_s,
    ...recording.min,
    ...recording.max,
    ...streams.map((s) => s.samples),
  ]) {
    sum.bytes(new Uint8Array(column.buffer, column.byteOffset, column.byteLength));
    values += column.length;
  }
  sum.bytes(new TextEncoder().encode(JSON.stringify({ extremes, meanSquares, audit, log, counters })));
  return { status, steps: counters.steps, values, word: sum.word };
}

/** The page calls it by this name. */
(globalThis as { told?: typeof told }).told = told;
