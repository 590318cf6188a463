/**
 * The compiled kernel's step beside plain C: the text of src/engine/fast/kernel/step.ts, rewritten to C by a few
 * rules, compiled with `cc -O2` and run on the memory of a running cabinet. What is measured is what WebAssembly costs.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const types: Readonly<Record<string, string>> = {
  i32: 'int32_t',
  u8: 'uint8_t',
  u32: 'uint32_t',
  f64: 'double',
  usize: 'uintptr_t',
  bool: 'int',
  void: 'void',
};
const typeOf = (name: string): string => types[name]!;

/** Parts of a list at its outer commas. */
function parts(list: string): string[] {
  const found = [''];
  let depth = 0;
  for (const letter of list) {
    if ('(['.includes(letter)) depth++;
    if (')]'.includes(letter)) depth--;
    if (letter === ',' && depth === 0) found.push('');
    else found[found.length - 1] += letter;
  }
  return found.map((part) => part.trim());
}

/** The kernel in C; its functions carry an underscore behind their names. */
function translated(kernel: string): string {
  let text = kernel.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '').replaceAll('@inline', '');
  // Constants of the module, then its variables.
  text = text.replace(/^const ([^;]+);/gm, (_, list: string) =>
    parts(list)
      .map((part) => part.replace(/^(\w+)(: \w+)? = /, '#define $1 '))
      .join('\n'),
  );
  text = text.replace(
    /^let (\w+): (\w+) = /gm,
    (_, name: string, type: string) => `static ${typeOf(type)} ${name} = `,
  );
  const names: string[] = [];
  text = text.replace(
    /(?:export )?function (\w+)\(([^)]*)\): (\w+) \{/g,
    (_, name: string, list: string, type: string) => {
      names.push(name);
      const taken = list === '' ? ['void'] : parts(list).map((part) => part.split(': '));
      const typed = taken.map((one) => (typeof one === 'string' ? one : `${typeOf(one[1]!)} ${one[0]}`));
      return `static ${typeOf(type)} ${name}_(${typed.join(', ')}) {`;
    },
  );
  // Variables inside functions.
  text = text.replace(
    /\b(?:let|const) (\w+): (\w+)( =|;)/g,
    (_, name: string, type: string, end: string) => `${typeOf(type)} ${name}${end}`,
  );
  text = text.replace(/for \(let (\w+) =/g, 'for (int32_t $1 =');
  text = text.replace(/\b(?:let|const) ([^;]+);/g, (_, list: string) =>
    parts(list)
      .map((part) => `${/= (\d|false|true)$/.test(part) ? 'int32_t' : '__auto_type'} ${part};`)
      .join(' '),
  );
  text = text.replace(/\bload<(\w+)>\(/g, 'LOAD_$1(').replace(/\bstore<(\w+)>\(/g, 'STORE_$1(');
  text = text.replace(/<(usize|f64|i32|u8)>/g, (_, type: string) => `(${typeOf(type)})`);
  const words: readonly (readonly [RegExp, string])[] = [
    [/memory\.copy\(/g, 'COPY('],
    [/memory\.fill\(/g, 'FILL('],
    [/f64\.MAX_VALUE/g, 'DBL_MAX'],
    [/\babs\(/g, 'fabs('],
    [/\bfalse\b/g, '0'],
    [/\btrue\b/g, '1'],
  ];
  for (const [word, instead] of words) text = text.replace(word, instead);
  for (const name of names) text = text.replace(new RegExp(`\\b${name}\\(`, 'g'), `${name}_(`);
  return text;
}

const head = `#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
static unsigned char *M;
#define LOAD_f64(p) (*(double *)(M + (p)))
#define LOAD_i32(p) (*(int32_t *)(M + (p)))
#define LOAD_u32(p) (*(uint32_t *)(M + (p)))
#define LOAD_u8(p) (*(uint8_t *)(M + (p)))
#define STORE_f64(p, v) (*(double *)(M + (p)) = (v))
#define STORE_u8(p, v) (*(uint8_t *)(M + (p)) = (v))
#define COPY(a, b, n) memmove(M + (a), M + (b), (n))
#define FILL(a, v, n) memset(M + (a), (v), (n))
`;

const main = `
int main(int count, char **words) {
  (void)count;
  FILE *file = fopen(words[1], "rb");
  fseek(file, 0, SEEK_END);
  long size = ftell(file);
  rewind(file);
  M = aligned_alloc(64, (size + 63) / 64 * 64);
  if (fread(M, 1, size, file) != (size_t)size) return 1;
  uintptr_t rung = atol(words[2]);
  double h = atof(words[3]);
  int steps = atoi(words[4]);
  double best = DBL_MAX;
  for (int round = 0; round < 4; round++) {
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    for (int k = 0; k < steps; k++) if (step_(rung, h, 1, 0)) return 1;
    clock_gettime(CLOCK_MONOTONIC, &b);
    double took = ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / steps;
    if (took < best) best = took;
  }
  double sum = 0;
  for (int k = 0; k < count_(N_NODE); k++) sum += LOAD_f64(P_(V1) + 8 * k);
  printf("%.17g %.17g\\n", best, sum);
  return 0;
}
`;

export interface InC {
  readonly step_ns: number;
  /** Sum of the node voltages at the end of the step: the same bits as the kernel's. */
  readonly sum_V: number;
}

/** Time of one step in C from `memory`, with the rung at `address` and step `h`; null without a C compiler. */
export function stepInC(memory: Uint8Array, address: number, h: number, steps: number): InC | null {
  const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
  try {
    const at = (name: string): string => join(folder, name);
    writeFileSync(
      at('step.c'),
      head + translated(readFileSync('src/engine/fast/kernel/step.ts', 'utf8')) + main,
    );
    writeFileSync(at('memory'), memory);
    // No fused multiply-add and no reordering: the same bits.
    const flags = [
      '-O2',
      '-ffp-contract=off',
      '-fno-math-errno',
      '-w',
      '-o',
      at('step'),
      at('step.c'),
      '-lm',
    ];
    const made = spawnSync('cc', flags, { encoding: 'utf8' });
    if (made.error !== undefined) return null;
    if (made.status !== 0) throw new Error(`cc: ${made.stderr}`);
    const { stdout } = spawnSync(at('step'), [at('memory'), String(address), String(h), String(steps)], {
      encoding: 'utf8',
    });
    const [step_ns, sum_V] = stdout.trim().split(' ').map(Number);
    if (sum_V === undefined) throw new Error('the step in C did not end');
    return { step_ns: step_ns!, sum_V };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
