/**
 * The file of a study: one declarative list of what is varied, crossed or sampled.
 *
 *   study: matrix                                 size, designs, rating, matrix, spread or duty
 *   scenario: ../pulse-train.yaml                 what everything starts from
 *   changes: [ duration = 10 s ]                  made in every trial
 *   corners: { aged: [ ageing.trays = end-of-life ] }
 *
 * A list of changes is written as on the command line, `path = value`. Names of files are relative to the
 * study's own folder.
 */
import { BadInput } from '../../base/problem.ts';
import { refuseUnknownKeys, required, wordOf } from '../../scenario/text/branches.ts';
import { Desk, type Files } from '../../scenario/text/desk.ts';
import { problemAt } from '../../scenario/text/document.ts';
import { besideFile, stemOf } from '../../scenario/text/paths.ts';
import { readFigures } from './figures.ts';
import { changesAt, readPairs, readVariants, readWords } from './lists.ts';
import { readCases, readEveryFault, readStretches, readVary } from './sections.ts';
import type { StudyFile, StudyKind } from './study-file.ts';

/** What every study's file may say. */
export const studyKeys: readonly string[] = ['study', 'title', 'about', 'scenario', 'changes'];
/** Single words of a study, by its kind. */
export const studyWordKeys: Readonly<Record<StudyKind, readonly string[]>> = {
  size: ['least'],
  designs: ['objectives', 'samples', 'seed', 'models'],
  rating: ['from', 'to', 'within', 'duty', 'period'],
  matrix: ['pairs', 'moments', 'shows'],
  spread: ['samples', 'seed', 'sampling', 'half_width', 'of', 'models', 'rare'],
  duty: ['repeat', 'begin'],
};
/** Sections of a study, by its kind. */
export const studySectionKeys: Readonly<Record<StudyKind, readonly string[]>> = {
  size: ['vary', 'cases', 'corners', 'redundancy', 'levers'],
  designs: ['vary', 'figures', 'tolerances', 'cases', 'corners', 'redundancy'],
  rating: ['scale', 'cases', 'corners', 'redundancy'],
  matrix: ['faults', 'every_fault', 'corners', 'redundancy'],
  spread: ['tolerances'],
  duty: ['stretches'],
};

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
        found !== null && found.text in studyWordKeys
          ? `use its own command, buswake ${found.text}, or copy the file and write study: ${kind} with what that asks for`
          : `write study: ${kind}`,
      ),
    );
    throw new BadInput(problems);
  }
  refuseUnknownKeys(root, [...studyKeys, ...studySectionKeys[kind], ...studyWordKeys[kind]], '', problems);
  required(root, 'title', '', 'one line that says what is studied', problems);
  required(root, 'scenario', '', 'the scenario that everything starts from', problems);
  const scenario = wordOf(root, 'scenario', '', problems)?.text ?? '';
  const words = new Map<string, string>();
  for (const key of studyWordKeys[kind]) {
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
    stretches: readStretches(root, problems),
    levers: readVariants(root, 'levers', problems),
    ...readVary(root, problems),
    figures: readFigures(root, problems),
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
