/** Inputs that changed between two runs as people read them: no SI suffix in the name, the unit behind the number. */
import { type Dimension, formatQuantity, suffixOf } from '../../base/quantity.ts';
import { families } from '../../scenario/tables.ts';
import type { ChangedInput } from './compare.ts';

type Value = ChangedInput['before'];

const significant = 5;

/** Suffixes with their dimension, longest first: `W_per_s` before `s`. */
const suffixes = (Object.entries(suffixOf) as [Dimension, string][]).sort(
  ([, a], [, b]) => b.length - a.length,
);

interface InputWords {
  readonly path: string;
  readonly change: string;
}

function wordsOf({ what, before, after }: ChangedInput): InputWords {
  const [dimension, suffix] = suffixes.find(([, end]) => what.endsWith(`_${end}`)) ?? [null, ''];
  const path = dimension === null ? what : what.slice(0, -suffix.length - 1);
  return { path, change: `${valueWords(before, dimension)} → ${valueWords(after, dimension)}` };
}

function valueWords(value: Value, dimension: Dimension | null): string {
  if (value === null) return 'none';
  if (typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)) return `${value.slice(0, 12)}…`;
  if (typeof value !== 'number') return String(value);
  if (dimension !== null) return formatQuantity(value, dimension, significant);
  return String(Number(value.toPrecision(significant)));
}

/** The path that reaches all units of a family: `trays.capacitance` of `trays.T4.capacitance`. */
function ofFamily(path: string): string {
  const [family, , ...rest] = path.split('.');
  return rest.length > 0 && (families as readonly string[]).includes(family!)
    ? `${family}.${rest.join('.')}`
    : path;
}

/** One line for each change; units of one kind that changed alike share a line. */
export function changedInputs(inputs: readonly ChangedInput[]): string[] {
  const alike = new Map<string, InputWords[]>();
  for (const words of inputs.map(wordsOf)) {
    const key = `${ofFamily(words.path)} ${words.change}`;
    alike.set(key, [...(alike.get(key) ?? []), words]);
  }
  return [...alike.values()].map(([first, ...others]) => {
    const path = others.length === 0 ? first!.path : `${ofFamily(first!.path)}, ${others.length + 1} units`;
    return `${path}: ${first!.change}`;
  });
}
