/** The gains of the laws as a header of C: constants in SI, exact, as people read them beside it. */
import type { Heard, Part } from './heard.ts';
import { type Leaf, valuesOf } from './leaves.ts';
import { elementOf, type NumberForm } from './number-form.ts';
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

export function gainsText(
  all: readonly Heard[],
  timing: (of: Heard) => Timing,
  origin: Origin,
  form: NumberForm,
): string {
  const files = [...new Set(all.map(({ inC }) => inC.file))];
  return [
    '/*',
    ' * Gains of the laws, discrete: each stands for one period of its task, at the latency that is named.',
    ` * Form: that of the equations in the header of each law. ${form.scaling[0]}`,
    ...form.scaling.slice(1).map((line) => ` * ${line}`),
    ' * in its name (V, A, W, J, s, F, ohm; ratio and per-unit numbers over what their name says).',
    ...originLines(origin).map((line) => ` * ${inComment(line)}`),
    ' */',
    '#ifndef GAINS_H',
    '#define GAINS_H',
    '',
    ...form.includes,
    ...files.map((file) => `#include "${file}.h"`),
    '',
    ...all.flatMap((one) => lawLines(one, timing(one), form)),
    '#endif',
    '',
  ].join('\n');
}

function lawLines(
  heard: Heard,
  { period_s, latency_s, units, phases_s }: Timing,
  form: NumberForm,
): string[] {
  return [
    `/* ${heard.id}: units ${inComment(units.join(', '))}. */`,
    form.time(`${heard.id}_period`, period_s),
    form.time(`${heard.id}_latency`, latency_s),
    ...(phases_s.length === 0
      ? []
      : [
          '/* Turn of each unit after the period begins: the law is called once more at each, with isDue for the units whose turn it is. */',
          form.times(`${heard.id}_phase`, phases_s),
        ]),
    '',
    ...heard.gains.flatMap((part) => partLines(heard, part, form)),
  ];
}

/** Name of a table of gains in C. */
export const gainsName = (heard: Heard, part: Part): string => `${heard.id}_${part.name}`;

function partLines(heard: Heard, part: Part, form: NumberForm): string[] {
  const name = gainsName(heard, part);
  const text = (leaf: Leaf, k: number): string => valueText(leaf.read(k), leaf, heard, form);
  const columns = part.leaves.filter(({ length }) => length !== null);
  return [
    ...columns.map((leaf) => columnLine(`${name}_${leaf.path.join('_')}`, leaf, text, form)),
    ...tableLines(heard, part.structure!, name, part.leaves, [], text),
    '',
  ];
}

type ValueText = (leaf: Leaf, k: number) => string;

function columnLine(name: string, leaf: Leaf, text: ValueText, form: NumberForm): string {
  const values = valuesOf(leaf).map((_, k) => text(leaf, k));
  return `static const ${elementOf(form, leaf.kind)} ${name}[${values.length}] = {\n  ${values.join(',\n  ')},\n};`;
}

function valueText(value: number, leaf: Leaf, heard: Heard, form: NumberForm): string {
  if (leaf.kind === 'boolean') return String(value === 1);
  return leaf.kind === 'number' || leaf.kind === 'Float64Array'
    ? form.coefficient(value, leaf, heard)
    : String(value);
}

/** A structure and before it those that it holds. */
function tableLines(
  heard: Heard,
  structure: string,
  name: string,
  leaves: readonly Leaf[],
  path: readonly string[],
  text: ValueText,
): string[] {
  const own = [name, ...path].join('_');
  const before: string[] = [];
  const fields = heard.inC.structures[structure]!.map(([field, kind]) => {
    const below = [...path, field];
    const at = [name, ...below].join('_');
    if (kind in heard.inC.structures) {
      before.push(...tableLines(heard, kind, name, leaves, below, text));
      return `  .${field} = &${at},`;
    }
    const leaf = leaves.find(({ path: of }) => of.join('.') === below.join('.'))!;
    return `  .${field} = ${leaf.length === null ? text(leaf, 0) : at},`;
  });
  return [...before, `static const ${structure} ${own} = {`, ...fields, '};'];
}
