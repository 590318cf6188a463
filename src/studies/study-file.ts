/**
 * The file of a study: one declarative list of what is varied, crossed or sampled.
 *
 *   study: matrix                                 size, rating, matrix or spread
 *   scenario: ../pulse-train.yaml                 what everything starts from
 *   changes: [ duration = 10 s ]                  made in every trial
 *   corners: { aged: [ ageing.trays = end-of-life ] }
 *
 * A list of changes is written as on the command line, `path = value`. Names of files are relative to the
 * study's own folder.
 */
import { BadInput, type Problem } from '../base/problem.ts';
import type { Change, InputFile } from '../scenario/scenario.ts';
import { asBranch, asLeaf, asWords, refuseUnknownKeys, required, wordOf } from '../scenario/text/branches.ts';
import { Desk, type Files } from '../scenario/text/desk.ts';
import { type Branch, problemAt } from '../scenario/text/document.ts';
import { listed } from '../scenario/text/nearest.ts';
import type { Origin } from '../scenario/text/origin.ts';
import { besideFile, stemOf } from '../scenario/text/paths.ts';

export type StudyKind = 'size' | 'rating' | 'matrix' | 'spread';

/** A name and the changes it stands for. */
export interface Variant {
  readonly name: string;
  readonly changes: readonly Change[];
  /** A scenario of its own, where it has one. */
  readonly scenario?: string;
  /** What it stands for, where that is more than its name. */
  readonly about?: string;
  /** Where a file says so. */
  readonly origin?: Origin;
}

export interface StudyFile {
  readonly id: string;
  readonly kind: StudyKind;
  readonly title: string;
  readonly about: string;
  readonly scenario: string;
  readonly changes: readonly Change[];
  /** Loads or events that all must pass; one without a name of its own where the file lists none. */
  readonly cases: readonly Variant[];
  readonly corners: readonly Variant[];
  readonly redundancy: readonly Variant[];
  readonly faults: readonly Variant[];
  /** One fault of each kind of event there is, this long after the start; null: only those listed. */
  readonly everyFault: {
    readonly at: string;
    readonly units: 'one' | 'each';
    readonly back: string;
    /** Where a file says so. */
    readonly origin?: Origin;
  } | null;
  /** Changes that may help, tried one by one. */
  readonly levers: readonly Variant[];
  /** What is varied: a path and its values as written, `6 to 14`; or a name and designs of its own, `a | b`. */
  readonly vary: readonly (readonly [path: string, values: string])[];
  /** Designs by the name they are varied under, least first: each makes several changes at once. */
  readonly designs: Readonly<Record<string, readonly Variant[]>>;
  /** What is scaled, with `from`, `to` and `within`. */
  readonly scale: readonly string[];
  readonly tolerances: readonly (readonly [path: string, text: string])[];
  /** Single words: samples, seed, sampling, half_width, of, models, from, to, within, duty, period, least. */
  readonly words: ReadonlyMap<string, string>;
  readonly inputs: readonly InputFile[];
}

const common = ['study', 'title', 'about', 'scenario', 'changes'];
const wordKeys: Readonly<Record<StudyKind, readonly string[]>> = {
  size: ['least'],
  rating: ['from', 'to', 'within', 'duty', 'period'],
  matrix: [],
  spread: ['samples', 'seed', 'sampling', 'half_width', 'of', 'models'],
};
const keysOf: Readonly<Record<StudyKind, readonly string[]>> = {
  size: ['vary', 'cases', 'corners', 'redundancy', 'levers'],
  rating: ['scale', 'cases', 'corners', 'redundancy'],
  matrix: ['faults', 'every_fault', 'corners', 'redundancy'],
  spread: ['tolerances'],
};

/** A study of one kind with nothing in it yet: what a command line fills. */
export function emptyStudy(kind: StudyKind, scenario: string): StudyFile {
  return {
    id: stemOf(scenario),
    kind,
    title: '',
    about: '',
    scenario,
    changes: [],
    cases: [],
    corners: [],
    redundancy: [],
    faults: [],
    everyFault: null,
    levers: [],
    vary: [],
    designs: {},
    scale: [],
    tolerances: [],
    words: new Map(),
    inputs: [],
  };
}

/** Reads a study that must be of `kind`; throws BadInput with everything wrong. */
export function readStudy(file: string, kind: StudyKind, files: Files): StudyFile {
  const desk = new Desk(files);
  const root = desk.document(file, null, '');
  if (root === null) throw new BadInput(desk.problems);
  const { problems } = desk;
  const found = wordOf(root, 'study', '', problems);
  if (found?.text !== kind) {
    const there = found === null || found.text === '' ? 'no kind of study' : `a study of kind ${found.text}`;
    problems.push(
      problemAt(
        found?.origin ?? root.origin,
        'study',
        there,
        `a study of kind ${kind}`,
        found !== null && found.text in wordKeys
          ? `use its own command: buswake ${found.text}`
          : `write study: ${kind}`,
      ),
    );
    throw new BadInput(problems);
  }
  refuseUnknownKeys(root, [...common, ...keysOf[kind], ...wordKeys[kind]], '', problems);
  required(root, 'title', '', 'one line that says what is studied', problems);
  required(root, 'scenario', '', 'the scenario that everything starts from', problems);
  const scenario = wordOf(root, 'scenario', '', problems)?.text ?? '';
  const words = new Map<string, string>();
  for (const key of wordKeys[kind]) {
    const word = wordOf(root, key, '', problems);
    if (word !== null) words.set(key, word.text);
  }
  const study: StudyFile = {
    id: stemOf(file),
    kind,
    title: wordOf(root, 'title', '', problems)?.text ?? '',
    about: wordOf(root, 'about', '', problems)?.text ?? '',
    scenario: besideFile(file, scenario),
    changes: changesAt(root, 'changes', 'changes', problems),
    cases: readCases(file, root, problems),
    corners: readVariants(root, 'corners', problems),
    redundancy: readVariants(root, 'redundancy', problems),
    faults: readVariants(root, 'faults', problems),
    everyFault: readEveryFault(root, problems),
    levers: readVariants(root, 'levers', problems),
    ...readVary(root, problems),
    scale: readWords(root, 'scale', problems),
    tolerances: readPairs(root, 'tolerances', problems),
    words,
    inputs: desk.inputs,
  };
  if (problems.length > 0) throw new BadInput(problems);
  return study;
}

/** Whether a file says that it is a study. */
export function isStudy(text: string): boolean {
  return /^study\s*:/m.test(text);
}

/** `path = value` as a change; null where there is no equals sign. */
export function changeOf(text: string): Change | null {
  const cut = text.indexOf('=');
  if (cut < 1 || cut === text.length - 1) return null;
  return { path: text.slice(0, cut).trim(), value: text.slice(cut + 1).trim() };
}

function readWords(root: Branch, key: string, problems: Problem[]): string[] {
  const entry = root.entries.get(key);
  return entry === undefined ? [] : asWords(entry.node, key, problems).map(({ text }) => text);
}

function changesAt(branch: Branch, key: string, path: string, problems: Problem[]): Change[] {
  const entry = branch.entries.get(key);
  if (entry === undefined) return [];
  return asWords(entry.node, path, problems).flatMap(({ text, origin }) => {
    const change = changeOf(text);
    if (change !== null) return [change];
    problems.push(problemAt(origin, path, text, 'a change', 'write it like trays.capacitance = 130 F'));
    return [];
  });
}

function readVariants(root: Branch, key: string, problems: Problem[]): Variant[] {
  const entry = root.entries.get(key);
  const branch = entry === undefined ? null : asBranch(entry.node, key, problems);
  if (branch === null) return [];
  return [...branch.entries].map(([name, { node }]) => ({
    name,
    changes: changesAt(branch, name, `${key}.${name}`, problems),
    origin: node.origin,
  }));
}

function readCases(file: string, root: Branch, problems: Problem[]): Variant[] {
  const entry = root.entries.get('cases');
  const branch = entry === undefined ? null : asBranch(entry.node, 'cases', problems);
  return [...(branch?.entries ?? [])].flatMap(([name, { node }]) => {
    const path = `cases.${name}`;
    const inner = asBranch(node, path, problems);
    if (inner === null) return [];
    refuseUnknownKeys(inner, ['scenario', 'changes'], path, problems);
    const own = wordOf(inner, 'scenario', path, problems)?.text;
    const changes = changesAt(inner, 'changes', `${path}.changes`, problems);
    return [{ name, changes, ...(own === undefined ? {} : { scenario: besideFile(file, own) }) }];
  });
}

function readPairs(root: Branch, key: string, problems: Problem[]): [string, string][] {
  const entry = root.entries.get(key);
  const branch = entry === undefined ? null : asBranch(entry.node, key, problems);
  return branch === null ? [] : pairsOf(branch, key, problems);
}

function pairsOf(branch: Branch, key: string, problems: Problem[]): [string, string][] {
  return [...branch.entries].flatMap(([path, { node }]): [string, string][] => {
    if (node.kind === 'row') {
      return [
        [
          path,
          asWords(node, `${key}.${path}`, problems)
            .map(({ text }) => text)
            .join(' | '),
        ],
      ];
    }
    const leaf = asLeaf(node, `${key}.${path}`, problems);
    return leaf === null ? [] : [[path, leaf.text]];
  });
}

/** A path with its values, or a name with designs: `bar section: { 60 by 10 mm: [ … ], 100 by 10 mm: [ … ] }`. */
function readVary(root: Branch, problems: Problem[]): Pick<StudyFile, 'vary' | 'designs'> {
  const entry = root.entries.get('vary');
  const branch = entry === undefined ? null : asBranch(entry.node, 'vary', problems);
  if (branch === null) return { vary: [], designs: {} };
  const designs: Record<string, readonly Variant[]> = {};
  const plain = new Map(branch.entries);
  for (const [name, { node }] of branch.entries) {
    if (node.kind !== 'branch') continue;
    plain.delete(name);
    if (node.entries.size === 0) {
      const mend = 'write a name and its changes for each, least first';
      problems.push(problemAt(node.origin, `vary.${name}`, 'no designs', 'at least one design', mend));
    }
    designs[name] = [...node.entries.keys()].map((design) => ({
      name: design,
      changes: changesAt(node, design, `vary.${name}.${design}`, problems),
    }));
  }
  const pairs = new Map(pairsOf({ ...branch, entries: plain }, 'vary', problems));
  const vary = [...branch.entries.keys()].flatMap((key): [string, string][] => {
    const values = designs[key]?.map(({ name }) => name).join(' | ') ?? pairs.get(key);
    return values === undefined ? [] : [[key, values]];
  });
  return { vary, designs };
}

function readEveryFault(root: Branch, problems: Problem[]): StudyFile['everyFault'] {
  const entry = root.entries.get('every_fault');
  const branch = entry === undefined ? null : asBranch(entry.node, 'every_fault', problems);
  if (branch === null) return null;
  refuseUnknownKeys(branch, ['at', 'units', 'back'], 'every_fault', problems);
  const at = required(branch, 'at', 'every_fault', 'when each fault happens', problems);
  const units = wordOf(branch, 'units', 'every_fault', problems);
  if (units !== null && units.text !== 'one' && units.text !== 'each') {
    const allowed = listed(['one', 'each']);
    problems.push(problemAt(units.origin, 'every_fault.units', units.text, allowed, 'write one of them'));
  }
  const back = wordOf(branch, 'back', 'every_fault', problems)?.text ?? '1 s';
  if (at === null || at.node.kind !== 'leaf') return null;
  return { at: at.node.text, origin: at.node.origin, units: units?.text === 'each' ? 'each' : 'one', back };
}
