/** How trials came out: one letter each, and how many came out how. Only P is a clean pass; E is no verdict at all. */

import { namedFew } from '../../analysis/words/named-few.ts';
import { counted } from '../../base/counted.ts';
import type { RunOutcome } from './run-outcome.ts';

export type Letter = 'P' | 'C' | 'N' | 'F' | 'X' | 'E';

export const letterWords: Readonly<Record<Letter, string>> = {
  P: 'passes',
  C: 'passes with conditions',
  N: 'inconclusive',
  F: 'fails',
  X: 'collapsed or could not begin',
  E: 'numerical failure, no verdict',
};

export function letterOf({ status, verdict, collapse }: RunOutcome): Letter {
  if (status === 'non_finite' || status === 'audit_open') return 'E';
  if (status === 'collapsed' || status === 'no_operating_point') return 'X';
  if (collapse !== null && verdict === 'fail') return 'X';
  switch (verdict) {
    case 'pass':
      return 'P';
    case 'pass_with_conditions':
      return 'C';
    case 'fail':
      return 'F';
    case 'inconclusive':
      return 'N';
  }
}

/** With conditions or without. */
export function isPass(letter: Letter): boolean {
  return letter === 'P' || letter === 'C';
}

/** From the best to the worst: what a row of cells is summed up by. */
const order: readonly Letter[] = ['P', 'C', 'N', 'F', 'X', 'E'];

export function isWorse(a: Letter, b: Letter): boolean {
  return order.indexOf(a) > order.indexOf(b);
}

/** The worst of some trials: what they come to together. */
export function worstLetter(outcomes: readonly RunOutcome[]): Letter {
  return outcomes.map(letterOf).reduce((a, b) => (isWorse(b, a) ? b : a), 'P');
}

/** How many of a study's trials came out how. */
export interface States {
  readonly passed: number;
  readonly conditional: number;
  readonly inconclusive: number;
  readonly failed: number;
  readonly collapsed: number;
  readonly numerical: number;
  /** Of all of them: with something in their basis that the reader of the files warned of. */
  readonly warned: number;
  /** What the passes with conditions rest on, and what was warned of, each once. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
}

export function statesOf(outcomes: readonly RunOutcome[]): States {
  const letters = outcomes.map(letterOf);
  const count = (letter: Letter): number => letters.filter((one) => one === letter).length;
  const conditional = outcomes.filter((_, k) => letters[k] === 'C');
  return {
    passed: count('P'),
    conditional: count('C'),
    inconclusive: count('N'),
    failed: count('F'),
    collapsed: count('X'),
    numerical: count('E'),
    warned: outcomes.filter(({ warnings }) => warnings.length > 0).length,
    conditions: [...new Set(conditional.flatMap(conditionsOf))],
    warnings: [...new Set(outcomes.flatMap(({ warnings }) => warnings))],
  };
}

/** All came out as clean passes: nothing is open, nothing was warned into a condition. */
export function areClean({ passed }: States, runs: number): boolean {
  return passed === runs;
}

/** What a trial rests on: limits that are waived or inconclusive, then statements of its basis. */
export function conditionsOf({ findings, conditions }: RunOutcome): readonly string[] {
  const ids = (verdict: string): string[] =>
    [...new Set(findings.filter((one) => one.verdict === verdict).map(({ id }) => id))].map(
      (id) => `${id} ${verdict}`,
    );
  return [...ids('waived'), ...ids('inconclusive'), ...conditions];
}

/** `of 12 simulations 3 pass with conditions, 1 is a numerical failure without verdict`; '' where all pass clean. */
export function statesWords(states: States): string {
  const { passed, conditional, inconclusive, failed, collapsed, numerical, warned } = states;
  const parts = [
    [passed, 'pass'],
    [conditional, 'pass with conditions'],
    [inconclusive, 'inconclusive'],
    [failed, 'fail'],
    [collapsed, 'collapsed or could not begin'],
    [numerical, 'numerical failure without a verdict'],
  ] as const;
  const told = parts.filter(([count]) => count > 0).map(([count, words]) => `${count} ${words}`);
  return `${told.join(', ')}${warned === 0 ? '' : `; ${warned} with warnings`}`;
}

/** `124 simulations, 72 of candidates and 52 of levers: 15 pass, …`: what was run beside those whose states stand behind it. */
export function simulationsWords(
  runs: number,
  states: States,
  [tried, beside]: readonly [tried: string, beside: string],
): string {
  const { passed, conditional, inconclusive, failed, collapsed, numerical } = states;
  const told = passed + conditional + inconclusive + failed + collapsed + numerical;
  const parts = runs > told ? `, ${told} of ${tried} and ${runs - told} of ${beside}` : '';
  return `${counted(runs, 'simulation')}${parts}: ${statesWords(states)}`;
}

/** The sentences below a study's answer: what conditions rest on and what was warned of, a few by name. */
export function statesNotes({ conditions, warnings }: States): readonly string[] {
  return [
    ...(conditions.length === 0 ? [] : [`Conditions: ${few(conditions)}.`]),
    ...(warnings.length === 0 ? [] : [`Warnings: ${few(warnings)}.`]),
  ];
}

/** What an answer rests on and was warned of, in sentences behind it. */
export function restsOn({
  conditions,
  warnings,
}: Pick<States, 'conditions' | 'warnings'>): readonly string[] {
  return [
    ...(conditions.length === 0 ? [] : [`Its conditions: ${few(conditions)}.`]),
    ...(warnings.length === 0 ? [] : [`It was warned of: ${few(warnings)}.`]),
  ];
}

function few(list: readonly string[]): string {
  return namedFew(list, most, '; ');
}

/** Conditions or warnings written out; the JSON has them all. */
const most = 6;
