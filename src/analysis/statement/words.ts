/** A statement where people read it: terminal, page and the table that is sent back say the same. */
import { counted } from '../../base/counted.ts';
import { plainUnits } from '../../scenario/specification/written-unit.ts';
import type { RequirementState, Statement, StatementLine } from './line.ts';

export const stateWords: Readonly<Record<RequirementState, string>> = {
  met: 'met',
  met_with_conditions: 'met with conditions',
  not_met: 'not met',
  open: 'open',
};

/** The answer in one sentence. */
export function statementHead({ file, title, lines }: Statement): string {
  const of = (state: RequirementState): number => lines.filter((line) => line.state === state).length;
  const conditional = of('met_with_conditions');
  const met = of('met') + conditional;
  const name = title === '' ? file : `${title} (${file})`;
  const under = conditional === 0 ? '' : `, ${conditional} of them with conditions`;
  return `${name}: of ${counted(lines.length, 'requirement')} ${met} met${under}, ${of('not_met')} not met, ${of('open')} open`;
}

/** A number in the unit of its requirement. */
export function inOwnUnit({ requirement }: StatementLine, value: number | null): string {
  if (value === null) return '';
  const unit = requirement.judged?.unit ?? '';
  const number = String(Number(value.toPrecision(4)));
  return plainUnits.includes(unit) ? number : `${number} ${unit}`;
}

/** Why, or under which conditions of its own; empty where it is met without any. */
export function saidOf({ because, conditions }: StatementLine): string {
  return because ?? conditions.join('; ');
}
