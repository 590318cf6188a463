/** What a verdict rests on: in short a line or two for each kind, conditions first; in full every entry with who and why. */
import type { BasisEntry } from '../../analysis/basis.ts';
import { namedFew } from '../../analysis/words/named-few.ts';
import { wrap } from './columns.ts';
import type { Paint } from './paint.ts';

const label = 'basis   ';
const indent = ' '.repeat(label.length);

/** In short so many entries of a kind are shown: the headline names conditions too, and the full text has all. */
const entriesShown = 1;

export function basisText(
  basis: readonly BasisEntry[],
  width: number,
  paint: Paint,
  verbose: boolean,
): string[] {
  const sentences = verbose
    ? basis.map((e) => ({ text: inFull(e), conditions: e.conditions }))
    : inShort(basis);
  return sentences.flatMap(({ text, conditions }, k) => {
    const lines = wrap(`${k === 0 ? label : indent}${text}`, width, `${indent}  `);
    return conditions ? lines.map((line) => paint('open', line)) : lines;
  });
}

interface Sentence {
  readonly text: string;
  readonly conditions: boolean;
}

function inShort(basis: readonly BasisEntry[]): Sentence[] {
  const told = basis.filter(({ conditions }) => !conditions);
  // The day stands in the heading of the report.
  const rules = told.filter(({ kind, what }) => kind === 'rule' && !what.startsWith('judged on'));
  return [
    { text: rules.map(({ what }) => what).join('; '), conditions: false },
    ...byKind(basis.filter(({ conditions }) => conditions)).map(([kind, entries]) => ({
      text: `condition, ${kind}: ${namedFew(entries.map(named), entriesShown)}`,
      conditions: true,
    })),
    ...byKind(told.filter(({ kind }) => kind !== 'rule')).map(([kind, entries]) => ({
      text: `${kind}: ${namedFew(
        entries.map(({ what }) => what),
        entriesShown,
      )}`,
      conditions: false,
    })),
  ];
}

function byKind(entries: readonly BasisEntry[]): [BasisEntry['kind'], BasisEntry[]][] {
  const kinds = new Map<BasisEntry['kind'], BasisEntry[]>();
  for (const one of entries) kinds.set(one.kind, [...(kinds.get(one.kind) ?? []), one]);
  return [...kinds];
}

function named({ what, by }: BasisEntry): string {
  return by === null ? what : `${what} (${by})`;
}

function inFull(one: BasisEntry): string {
  const since = one.since === null ? '' : `, since ${one.since}`;
  const reason = one.reason === null ? '' : `: ${one.reason}`;
  return `${one.conditions ? 'condition, ' : ''}${one.kind}: ${named(one)}${since}${reason}`;
}
