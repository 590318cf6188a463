/** The schemas that editors check files by: what ships passes, and what the reader refuses in form they refuse as well. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { schemaDocuments, schemaNameOf } from '../../src/schema/schemas.ts';
import { readStudy } from '../../src/studies/written/read-study.ts';
import type { StudyKind } from '../../src/studies/written/study-file.ts';

const ajv = new Ajv({ strict: true, strictTypes: false, strictRequired: false, allErrors: true });
const validators = Object.fromEntries(
  Object.entries(schemaDocuments).map(([name, schema]) => [name, ajv.compile(schema)]),
);

/** What is wrong with a text as an editor reads it; nothing where it is in order. */
function wrongWith(text: string, name = schemaNameOf(text)): string[] {
  const validate = validators[name]!;
  validate(parse(text));
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const shipped = ['models', 'scenarios', 'scenarios/studies'].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => join(folder, name)),
);

describe('what ships', () => {
  it('has a file of every kind', () => {
    const kinds = new Set(shipped.map((file) => schemaNameOf(readFileSync(file, 'utf8'))));
    expect([...kinds].sort()).toEqual(Object.keys(schemaDocuments).sort());
  });

  it.each(shipped)('%s is in order', (file) => {
    expect(wrongWith(readFileSync(file, 'utf8'))).toEqual([]);
  });

  it.each(shipped)('%s names its schema in its first line', (file) => {
    const text = readFileSync(file, 'utf8');
    const up = '../'.repeat(file.split('/').length - 1);
    expect(text.split('\n')[0]).toBe(
      `# yaml-language-server: $schema=${up}dist/schemas/${schemaNameOf(text)}.json`,
    );
  });
});

/** The problems that the reader finds where one file says another text. */
function refusedByReader(file: string, text: string): boolean {
  const files = (path: string): ReturnType<typeof readTextFile> =>
    path === file ? { text, unfit: null, sha256: '0' } : readTextFile(path);
  const kind = schemaNameOf(readFileSync(file, 'utf8'));
  try {
    if (kind === 'study') {
      const study = /^study: (\w+)/m.exec(readFileSync(file, 'utf8'))![1] as StudyKind;
      readStudy(file, study, files);
    } else readScenario(kind === 'scenario' ? file : scenarioOf[kind]!, { files });
    return false;
  } catch {
    return true;
  }
}

/** A scenario that reads a file of the kind. */
const scenarioOf: Readonly<Record<string, string>> = {
  ...Object.fromEntries(Object.keys(schemaDocuments).map((kind) => [kind, 'scenarios/pulse-train.yaml'])),
  gains: 'scenarios/fast-signal.yaml',
};

describe('what is wrong is refused by schema and reader', () => {
  it.each([
    ['scenarios/pulse-train.yaml', 'period: 1.6 s', 'period: 1.6 V', 'another unit'],
    ['scenarios/pulse-train.yaml', 'period: 1.6 s', 'period: 1.6', 'no unit'],
    ['scenarios/pulse-train.yaml', 'period: 1.6 s', 'period: -1.6 s', 'below 0'],
    ['scenarios/pulse-train.yaml', 'period: 1.6 s', 'periode: 1.6 s', 'a misspelt key'],
    ['scenarios/pulse-train.yaml', 'duty: 70 %', 'duty: 1.7', 'above its bound'],
    ['scenarios/pulse-train.yaml', 'duty: 70 %', 'duty: 70 kW', 'a power for a share'],
    ['scenarios/pulse-train.yaml', 'duty: 70 %', 'duty: [70 %]', 'a list for a value'],
    ['scenarios/pulse-train.yaml', 'kind: pulse-train', 'kind: pulse-trane', 'an unknown kind'],
    ['scenarios/pulse-train.yaml', 'start: converged-cycle', 'start: somewhere', 'an unknown word'],
    ['scenarios/pulse-train.yaml', 'duration: 30 s', 'duratoin: 30 s', 'a key of the run missing'],
    ['scenarios/pulse-train.yaml', 'duration: 30 s', 'duration: 30 s\nseed: 1.5', 'a broken count'],
    ['scenarios/pulse-train.yaml', 'duration: 30 s', 'duration: 30 s\noutage: maybe', 'no flag'],
    ['scenarios/ac-loss-and-return.yaml', 'what: ac-loss,', 'what: ac-los,', 'an unknown event'],
    [
      'scenarios/ac-loss-and-return.yaml',
      'at: 0.5 s, what: ac-loss,',
      'what: ac-loss,',
      'an event without its time',
    ],
    [
      'scenarios/ac-loss-and-return.yaml',
      'what: ac-loss, unit: all',
      'what: ac-sag, unit: all, for: 1 s',
      'no amount',
    ],
    [
      'scenarios/ac-loss-and-return.yaml',
      'what: ac-loss, unit: all',
      'what: ac-loss, unit: all, to: 1',
      'an amount too many',
    ],
    ['models/tray-20kw.yaml', 'model: tray', 'model: trays', 'no such model'],
    ['models/tray-20kw.yaml', 'source: assumed', 'source: guessed', 'no such source'],
    [
      'models/tray-20kw.yaml',
      'source: assumed, why',
      'source: published, why',
      'published without a citation',
    ],
    ['models/bank-80mf.yaml', 'capacitance: { value: 80 mF', 'capacitance: { value: 80 mH', 'an inductance'],
    ['models/bank-80mf.yaml', 'capacitance:', 'capacity:', 'another name'],
    ['models/firmware-reference.yaml', 'period: { value: 10 ms,', 'period: { val: 10 ms,', 'no value'],
    ['models/reference-cabinet.yaml', 'weight: 180 }', 'wieght: 180 }', 'a unit without what it must have'],
    ['models/reference-cabinet.yaml', 'rack: 1 }', 'rack: one }', 'a word for a number'],
    [
      'models/reference-cabinet.yaml',
      'firmware: firmware-reference.yaml',
      'firmvare: firmware-reference.yaml',
      'no firmware',
    ],
    ['models/limits-default.yaml', 'side: lower', 'side: below', 'an unknown side'],
    ['models/limits-default.yaml', 'stay: 1 s', 'stay: 1 A', 'a stay in amperes'],
    ['models/limits-default.yaml', 'normal: 0.96', 'normal: 0.96 V', 'a voltage for a share'],
    ['models/gains-fast-signal.yaml', 'source: assumed,', 'sauce: assumed,', 'a gain without its source'],
    ['scenarios/studies/trays.yaml', 'study: size', 'study: sizes', 'no such study'],
    ['scenarios/studies/trays.yaml', 'corners:', 'tolerances:', 'a section of another study'],
    ['scenarios/studies/trays.yaml', '[duration = 16 s]', '[duration 16 s]', 'no change'],
    ['scenarios/studies/faults.yaml', 'units: one', 'units: some', 'an unknown word'],
  ])('%s with %s → %s: %s', (file, from, to) => {
    const text = readFileSync(file, 'utf8');
    expect(text).toContain(from);
    const wrong = text.replace(from, to);
    const kind = schemaNameOf(text);
    expect(wrongWith(wrong, kind)).not.toEqual([]);
    expect(refusedByReader(file, wrong)).toBe(true);
    expect(refusedByReader(file, text)).toBe(false);
  });
});
