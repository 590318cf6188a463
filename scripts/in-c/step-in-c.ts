/**
 * A step of the compiled kernel beside the same one by gcc: on the memory of a running cabinet, both to the same bits.
 * What is told is what WebAssembly costs, and what its lanes save.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { translate } from '../kernel/translate.ts';
import { inC, type Solved } from './text.ts';

/** A step to be taken again and again: its memory, where step and rung stand in it, and what `take` is told. */
export interface StepInMemory {
  readonly memory: Uint8Array;
  readonly step: number;
  readonly rung: number;
  readonly q_s: number;
  readonly along: number;
  /** Where the column of node voltages at the end stands, and how many they are. */
  readonly voltages: number;
  readonly nodes: number;
}

/** No fused multiply-add and no reordering: the same bits. */
const flags = ['-O2', '-ffp-contract=off', '-fno-math-errno', '-w'];

const main = `
int main(int, char **words) {
  FILE *file = fopen(words[1], "rb");
  fseek(file, 0, SEEK_END);
  long size = ftell(file);
  rewind(file);
  M = (unsigned char *)aligned_alloc(64, (size + 63) / 64 * 64);
  if (fread(M, 1, size, file) != (size_t)size) return 1;
  At<Step> step = {(unsigned)atoi(words[2])};
  At<Rung> rung = {(unsigned)atoi(words[3])};
  double q = atof(words[4]), along = atof(words[5]);
  int many = atoi(words[8]);
  double best = DBL_MAX;
  for (int round = 0; round < 5; round++) {
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    for (int k = 0; k < many; k++) if (take(step, rung, q, q, along, false)) return 1;
    clock_gettime(CLOCK_MONOTONIC, &b);
    double took = ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / many;
    if (took < best) best = took;
  }
  Column<double> v = {(unsigned)atoi(words[6])};
  double sum = 0;
  for (int k = 0; k < atoi(words[7]); k++) sum += v[k];
  printf("%.17g %.17g\\n", best, sum);
}
`;

/** Time of a step by gcc [ns] and the sum of its node voltages [V]; null without the compiler. */
export function stepInC(
  taken: StepInMemory,
  solved: Solved,
  many: number,
): { readonly step_ns: number; readonly sum_V: number } | null {
  const folder = mkdtempSync(join(tmpdir(), 'step-'));
  try {
    const at = (name: string): string => join(folder, name);
    writeFileSync(at('step.cpp'), inC(translate('src/engine/kernel.ts', 'one').text, solved) + main);
    writeFileSync(at('memory'), taken.memory);
    const made = spawnSync('g++', [...flags, '-o', at('step'), at('step.cpp')], { encoding: 'utf8' });
    if (made.error !== undefined) return null;
    if (made.status !== 0) throw new Error(`g++: ${made.stderr}`);
    const { step, rung, q_s, along, voltages, nodes } = taken;
    const words = [at('memory'), step, rung, q_s, along, voltages, nodes, many].map(String);
    const { stdout, status } = spawnSync(at('step'), words, { encoding: 'utf8' });
    const [step_ns, sum_V] = stdout.trim().split(' ').map(Number);
    if (status !== 0 || sum_V === undefined) throw new Error('the step by gcc did not end');
    return { step_ns: step_ns!, sum_V };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
