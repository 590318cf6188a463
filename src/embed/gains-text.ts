/** The gains of the laws as a header of C: constants in SI, exact, as people read them beside it. */
import { constant } from './c-number.ts';
import type { Heard, Part } from './heard.ts';
import { elementInC } from './law-in-c.ts';
import type { Leaf } from './leaves.ts';
import { valuesOf } from './leaves.ts';
import type { Origin } from './origin.ts';
import { inComment, originLines } from './origin.ts';

/** Names of units and sample times of a law, which no table of it holds. */
export interface Timing {
  readonly period_s: number;
  readonly latency_s: number;
  /** Units in their order. */
  readonly units: readonly string[];
  /** How much later than the period begins each has its turn [s]; empty where all run in step. */
  readonly phases_s: readonly number[];
}

export const gainsFile = 'gains.h';

export function gainsText(all: readonly Heard[], timing: (of: Heard) => Timing, origin: Origin): string {
  const files = [...new Set(all.map(({ inC }) => inC.file))];
  return [
    '/*',
    ' * Gains of the laws, discrete: each stands for one period of its task, at the latency that is named.',
    ' * Form: that of the equations in the header of each law. Scaling: none, every number is in SI in a 64-bit float, the unit',
    ' * in its name (V, A, W, J, s, F, ohm; ratio and per-unit numbers over what their name says).',
    ...originLines(origin).map((line) => ` * ${inComment(line)}`),
    ' */',
    '#ifndef GAINS_H',
    '#define GAINS_H',
    '',
    '#include <math.h> /* INFINITY alone: nothing of it is linked */',
    '',
    ...files.map((file) => `#include "${file}.h"`),
    '',
    ...all.flatMap((one) => lawLines(one, timing(one))),
    '#endif',
    '',
  ].join('\n');
}

function lawLines(heard: Heard, { period_s, latency_s, units, phases_s }: Timing): string[] {
  return [
    `/* ${heard.id}: units ${inComment(units.join(', '))}. */`,
    `static const double ${heard.id}_period_s = ${constant(period_s)};`,
    `static const double ${heard.id}_latency_s = ${constant(latency_s)};`,
    ...(phases_s.length === 0
      ? []
      : [
          '/* Turn of each unit after the period begins: the law is called once more at each, with isDue for the units whose turn it is. */',
          `static const double ${heard.id}_phase_s[${phases_s.length}] = {\n  ${phases_s.map(constant).join(',\n  ')},\n};`,
        ]),
    '',
    ...heard.gains.flatMap((part) => partLines(heard, part)),
  ];
}

/** Name of a table of gains in C. */
export const gainsName = (heard: Heard, part: Part): string => `${heard.id}_${part.name}`;

function partLines(heard: Heard, part: Part): string[] {
  const name = gainsName(heard, part);
  const columns = part.leaves.filter(({ length }) => length !== null);
  return [
    ...columns.map((leaf) => columnLine(`${name}_${leaf.path.join('_')}`, leaf)),
    ...tableLines(heard, part.structure!, name, part.leaves, []),
    '',
  ];
}

function columnLine(name: string, leaf: Leaf): string {
  const values = valuesOf(leaf).map((value) => valueText(value, leaf.kind));
  return `static const ${elementInC[leaf.kind]} ${name}[${values.length}] = {\n  ${values.join(',\n  ')},\n};`;
}

const valueText = (value: number, kind: string): string =>
  kind === 'boolean'
    ? String(value === 1)
    : kind === 'number' || kind === 'Float64Array'
      ? constant(value)
      : String(value);

/** A structure and before it those that it holds. */
function tableLines(
  heard: Heard,
  structure: string,
  name: string,
  leaves: readonly Leaf[],
  path: readonly string[],
): string[] {
  const own = [name, ...path].join('_');
  const before: string[] = [];
  const fields = heard.inC.structures[structure]!.map(([field, kind]) => {
    const below = [...path, field];
    const at = [name, ...below].join('_');
    if (kind in heard.inC.structures) {
      before.push(...tableLines(heard, kind, name, leaves, below));
      return `  .${field} = &${at},`;
    }
    const leaf = leaves.find(({ path: of }) => of.join('.') === below.join('.'))!;
    return `  .${field} = ${leaf.length === null ? valueText(leaf.read(0), kind) : at},`;
  });
  return [...before, `static const ${structure} ${own} = {`, ...fields, '};'];
}
