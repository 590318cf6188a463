/** What a duty comes to. */
import { type End, endOf } from '../end.ts';
import { isWorse, type Letter } from '../trials/states.ts';
import type { DutyReport } from './report.ts';

/** A battery that has nothing left while it carries leaves the load without a source. */
export function emptied({ moments }: Pick<DutyReport, 'moments'>): DutyReport['moments'] {
  return moments.filter(({ what }) => what === 'empty');
}

/** The worst of the stretches' runs, of the course's limits and of batteries that give out. */
export function dutyLetter(report: DutyReport): Letter {
  const { stretches, findings } = report;
  const letters = stretches.map(({ letter }) => letter);
  if (findings.some(({ verdict }) => verdict === 'fail') || emptied(report).length > 0) letters.push('F');
  if (findings.some(({ verdict }) => verdict === 'open')) letters.push('C');
  return letters.reduce((a, b) => (isWorse(b, a) ? b : a), 'P');
}

/** The same in words, and as the verdict that a page paints. */
export function dutyWord(report: DutyReport): {
  readonly word: string;
  readonly verdict: 'pass' | 'pass_with_conditions' | 'fail';
} {
  const letter = dutyLetter(report);
  if (letter === 'P') return { word: 'Pass', verdict: 'pass' };
  if (letter === 'C') return { word: 'Pass with conditions', verdict: 'pass_with_conditions' };
  return { word: 'Fail', verdict: 'fail' };
}

export function dutyEnd(report: DutyReport): End {
  const letter = dutyLetter(report);
  const count = (one: Letter): number => (letter === one ? 1 : 0);
  return endOf(
    {
      ...{ passed: count('P'), conditional: count('C'), inconclusive: count('N'), failed: count('F') },
      ...{ collapsed: count('X'), numerical: count('E'), warned: 0, conditions: [], warnings: [] },
    },
    letter === 'P' || letter === 'C',
  );
}
