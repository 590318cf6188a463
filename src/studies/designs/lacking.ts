import { BadInput, type Problem } from '../../base/problem.ts';
import { exampleOf } from '../../base/quantity.ts';
import type { Figure } from '../../scenario/parameters/figures.ts';
import { figureParameters } from '../../scenario/parameters/figures.ts';
import type { Bill } from './bill.ts';

/** Throws BadInput with every model that lacks a figure which designs are to be compared by, and the key to write. */
export function refuseLacking(bills: readonly Bill[], asked: readonly Figure[]): void {
  const problems = new Map<string, Problem>();
  for (const figure of asked) {
    for (const { family, model, units, figures } of bills.flatMap(({ lines }) => lines)) {
      const key = [model, family, figure].join(' ');
      if (figures[figure] !== null || problems.has(key)) continue;
      const example = exampleOf(figureParameters[figure].dimension);
      problems.set(key, {
        severity: 'error',
        file: model,
        path: `${family}.${figure}`,
        found: `no ${figure} of ${units[0]}${units.length > 1 ? ' and others like it' : ''}`,
        expected: `${figureParameters[figure].means}, with its source`,
        mend: `write ${figure}: { value: ${example}, source: published, citation: … } inside parameters there, or below figures.${family} in the study`,
      });
    }
  }
  if (problems.size > 0) throw new BadInput([...problems.values()]);
}
