/** The load section: cells by the kind of load, then the frozen `LoadSpec`. */

import { fieldOf, type ParameterSpec } from '../parameter.ts';
import type { LoadSpec, RecordedReading } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import { isSynthetic, type SyntheticKind, type SyntheticLoad, syntheticLoads } from '../synthetic-loads.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, type Leaf, problemAt } from '../text/document.ts';
import { listed, nearestWords } from '../text/nearest.ts';
import { besideFile } from '../text/paths.ts';
import { type LoadField, loadKinds, readingFields } from './load-fields.ts';

/** Reads `load:` into cells; gives the kind, or null when it cannot be told. */
export function readLoad(branch: Branch, desk: Desk, sheet: Sheet): LoadSpec['kind'] | null {
  const entry = required(branch, 'kind', 'load', listed(Object.keys(loadKinds)), desk.problems);
  const leaf = entry === null ? null : asLeaf(entry.node, 'load.kind', desk.problems);
  if (leaf === null) return null;
  const fields = Object.hasOwn(loadKinds, leaf.text) ? loadKinds[leaf.text] : undefined;
  if (fields === undefined) {
    desk.problems.push(unknownKind(leaf));
    return null;
  }
  const nested = leaf.text === 'recorded' ? ['reading'] : [];
  refuseUnknownKeys(branch, ['kind', ...Object.keys(fields), ...nested], 'load', desk.problems);
  readFields(branch, fields, 'load', desk, sheet);
  if (leaf.text === 'recorded') {
    const reading = required(branch, 'reading', 'load', 'how the recording is to be read', desk.problems);
    const below = reading === null ? null : asBranch(reading.node, 'load.reading', desk.problems);
    if (below !== null) {
      refuseUnknownKeys(below, Object.keys(readingFields), 'load.reading', desk.problems);
      readFields(below, readingFields, 'load.reading', desk, sheet);
      refuseSentinels(below, sheet, desk);
    }
  }
  return leaf.text as LoadSpec['kind'];
}

function unknownKind(leaf: Leaf): ReturnType<typeof problemAt> {
  const kinds = Object.keys(loadKinds);
  const near = nearestWords(leaf.text, kinds, 1)[0];
  return problemAt(
    leaf.origin,
    'load.kind',
    leaf.text === '' ? 'nothing' : leaf.text,
    listed(kinds),
    near === undefined ? 'write one of them' : `did you mean ${near}?`,
  );
}

function readFields(
  branch: Branch,
  fields: Readonly<Record<string, LoadField>>,
  path: string,
  desk: Desk,
  sheet: Sheet,
): void {
  for (const [key, { field, fallback }] of Object.entries(fields)) {
    const cell = joined(path, key);
    if (fallback !== undefined) sheet.put(cell, { field, value: fallback, origin: null, note: null });
    const entry = branch.entries.get(key);
    if (entry === undefined) {
      if (fallback === undefined) {
        const means = field.kind === 'quantity' ? field.spec.means : field.means;
        required(branch, key, path, means, desk.problems);
      }
      continue;
    }
    // A list of columns may be written as a list.
    const leaf =
      entry.node.kind === 'row' && field.kind === 'text'
        ? textOfRow(entry.node.items, entry.keyOrigin)
        : asLeaf(entry.node, cell, desk.problems);
    if (leaf !== null) sheet.write(cell, field, leaf.text, leaf.origin);
  }
}

/** Sentinels are compared with numbers of the file: a word among them would never be met, and nobody would know. */
function refuseSentinels(reading: Branch, sheet: Sheet, desk: Desk): void {
  const entry = reading.entries.get('sentinel');
  if (entry === undefined) return;
  const path = 'load.reading.sentinel';
  for (const word of wordsOf(sheet.text(path))) {
    if (Number.isFinite(Number(word))) continue;
    const mend = 'write it like -999, or -999, 65535';
    desk.problems.push(problemAt(entry.keyOrigin, path, word, 'numbers, separated by commas', mend));
  }
}

/** The words between commas. */
function wordsOf(text: string | null): string[] {
  return (text ?? '')
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

function textOfRow(items: readonly { kind: string }[], origin: Leaf['origin']): Leaf {
  const words = items.map((item) => (item as Leaf).text ?? '');
  return { kind: 'leaf', text: words.join(', '), origin };
}

/** The load as the run reads it. `file`: the scenario's own file, for paths beside it. */
export function assembleLoad(kind: LoadSpec['kind'], file: string, sheet: Sheet): LoadSpec {
  const n = (key: string): number => sheet.number(`load.${key}`);
  if (isSynthetic(kind)) return assembleSynthetic(kind, n);
  switch (kind) {
    case 'constant':
      return { kind, power_W: n('power') };
    case 'step':
      return { kind, before_W: n('before'), after_W: n('after'), at_s: n('at'), edge_s: n('edge') };
    case 'pulse-train':
      return {
        kind,
        low_W: n('low'),
        high_W: n('high'),
        period_s: n('period'),
        duty_ratio: n('duty'),
        edge_s: n('edge'),
        spread_s: n('spread'),
        scatter_s: n('scatter'),
        jitter_s: n('jitter'),
      };
    case 'recorded':
      return {
        kind,
        file: recordedFile(file, sheet),
        from_s: n('from'),
        to_s: n('to'),
        peak_W: sheet.numberOrNull('load.peak'),
        scale_ratio: sheet.numberOrNull('load.scale'),
        edges: sheet.text('load.edges') as 'smooth' | 'sharp' | 'both',
        edge_s: n('edge'),
        loop: sheet.flag('load.loop'),
        reading: assembleReading(sheet),
      };
    default:
      return kind satisfies never;
  }
}

/** Every field of the family's table, under its key with its unit. */
function assembleSynthetic(kind: SyntheticKind, n: (key: string) => number): SyntheticLoad {
  const table: Readonly<Record<string, ParameterSpec>> = syntheticLoads[kind];
  const values = Object.entries(table).map(([key, spec]) => [fieldOf(key, spec), n(key)]);
  return { kind, ...Object.fromEntries(values) } as SyntheticLoad;
}

/** A name in the scenario stands beside it; a name from the command line is taken as it is. */
export function recordedFile(file: string, sheet: Sheet): string {
  const name = sheet.text('load.file') ?? '';
  const origin = sheet.cells.get('load.file')?.origin;
  return origin === null || origin === undefined || origin.line === 0 ? name : besideFile(file, name);
}

function assembleReading(sheet: Sheet): RecordedReading {
  const text = (key: string): string | null => sheet.text(`load.reading.${key}`);
  const list = (key: string): string[] => wordsOf(text(key));
  return {
    time: text('time'),
    power: list('power'),
    current: list('current'),
    voltage: text('voltage'),
    channel: text('channel'),
    unit: text('unit'),
    where: list('where'),
    dates: text('dates') as RecordedReading['dates'],
    decimal: text('decimal') as RecordedReading['decimal'],
    averaging_s: sheet.numberOrNull('load.reading.averaging'),
    samples: text('samples') as RecordedReading['samples'],
    sentinel: list('sentinel').map(Number),
    fresh: sheet.flag('load.reading.fresh'),
    sort: sheet.flag('load.reading.sort'),
    align: sheet.flag('load.reading.align'),
    overrule: sheet.flag('load.reading.overrule'),
    at: text('at') as RecordedReading['at'],
    side: text('side') as RecordedReading['side'],
    accept_ac: sheet.flag('load.reading.accept_ac'),
    copies: sheet.numberOrNull('load.reading.copies'),
    coincidence: text('coincidence') as RecordedReading['coincidence'],
    smoothed: sheet.flag('load.reading.smoothed'),
  };
}
