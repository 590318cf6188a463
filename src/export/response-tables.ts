/** How the quantities of a kept run answered its edges and events, as a table: one row a step and quantity. */
import { storyOf } from '../analysis/record/case.ts';
import type { Stated } from '../analysis/record/stated.ts';
import { answersOf } from '../analysis/responses/responses.ts';
import type { StepResponse } from '../analysis/responses/step-response.ts';
import type { Result } from '../engine/result.ts';
import { columnsFor, listTable } from './study/list-table.ts';
import type { ExportTable } from './table.ts';

/** Of the channels that are `wanted`; none where no step was answered. What hardly moved has empty cells. */
export function responseTables(
  scenario: Stated,
  result: Result,
  wanted: ReadonlySet<string>,
): readonly ExportTable[] {
  const story = storyOf(scenario, result);
  const answers = answersOf({ scenario, result, story }).filter(({ channel }) => wanted.has(channel));
  if (answers.length === 0) return [];
  const column = columnsFor(answers);
  const number = (name: keyof StepResponse) =>
    column.number(name, ({ response }) => response?.[name] ?? null);
  return [
    listTable('responses', [
      column.number('from_s', ({ step }) => step.at_s),
      column.number('to_s', ({ step }) => step.until_s),
      column.text('kind', ({ kind }) => kind),
      column.text('channel', ({ channel }) => channel),
      number('start'),
      number('end'),
      number('span'),
      number('overshoot'),
      number('overshoot_ratio'),
      number('undershoot'),
      number('undershoot_ratio'),
      number('settling_5_s'),
      number('settling_2_s'),
    ]),
  ];
}
