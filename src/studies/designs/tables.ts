/** Rows of the tables of a study of designs: the front, bills of parts, every design. */
import { formatPercent } from '../../base/quantity.ts';
import { type Figure, figureParameters } from '../../scenario/parameters/figures.ts';
import type { PlainRow } from '../tables.ts';
import { headroomWords } from '../trials/headroom-words.ts';
import type { Bill } from './bill.ts';
import { type Objective, objectiveFields, objectiveText, objectiveWords } from './objectives.ts';
import type { DesignRow, DesignsReport, FrontRow } from './report.ts';

/** A value in words; nothing where it is not known. */
export function valueText(objective: Objective, value: number | null | undefined): string {
  return value === null || value === undefined ? '' : objectiveText(objective, value);
}

export function frontHead({ varied, objectives }: DesignsReport): readonly string[] {
  return [
    ...varied,
    ...objectives.map((objective) => objectiveWords[objective]),
    ...(objectives.includes('headroom') ? [] : ['headroom']),
    'binding',
    'what is better fails',
  ];
}

export function frontRows({ front, varied, objectives }: DesignsReport): PlainRow[] {
  return front.map((row) => [
    ...varied.map((path) => row.values[path] ?? ''),
    ...objectives.map((objective) =>
      objective === 'yield' ? yieldText(row) : valueText(objective, row.objectives[objective]),
    ),
    ...(objectives.includes('headroom') ? [] : [headroomWords(row.run.tightest_ratio)]),
    `${row.run.binding}${row.run.situation === '' ? '' : ` in ${row.run.situation}`}`,
    whyText(row),
  ]);
}

function yieldText({ objectives, yield_interval_ratio }: FrontRow): string {
  const own = valueText('yield', objectives.yield);
  if (yield_interval_ratio === null) return own;
  const [low, high] = yield_interval_ratio.map((end) => formatPercent(end, 3));
  return `${own} (${low} to ${high})`;
}

/** Why it is on the front, in words. */
function whyText({ rivals }: FrontRow): string {
  if (rivals === null) return 'nothing is better';
  const { count, values, limit, situation, headroom_ratio } = rivals;
  const one = `${Object.values(values).join(', ')}: ${limit}${situation === '' ? '' : ` in ${situation}`} ${headroomWords(headroom_ratio)}`;
  return count === 1 ? one : `${count}; nearest ${one}`;
}

export const billHead = ['part', 'model', 'units', 'cost', 'mass', 'rack units', 'source'] as const;

/** Parts of a bill, and their sums where every part has the figure. */
export function billRows({ lines, totals }: Bill): PlainRow[] {
  const figures = Object.keys(figureParameters) as Figure[];
  const rows = lines.map(
    ({ family, model, title, units, differs, figures: of }): PlainRow => [
      [family, ...differs].join(', '),
      title === '' ? model : title,
      units.length,
      ...figures.map((figure) => {
        const own = of[figure];
        return own === null ? '' : objectiveText(figure, own.value * units.length);
      }),
      [...new Set(figures.flatMap((figure) => of[figure]?.source ?? []))].join('; '),
    ],
  );
  const sums = figures.map((figure) =>
    totals[figure] === null ? '' : objectiveText(figure, totals[figure]),
  );
  return sums.every((sum) => sum === '') ? rows : [...rows, ['all', '', '', ...sums, '']];
}

export function designHead({ varied, objectives }: DesignsReport): readonly string[] {
  return [
    ...varied,
    ...objectives.map((objective) => objectiveFields[objective]),
    'standing',
    'tightest_ratio',
    'binding',
    'situation',
  ];
}

export function designRow({ varied, objectives }: DesignsReport): (row: DesignRow) => PlainRow {
  return ({ values, objectives: of, standing, run }) => [
    ...varied.map((path) => values[path] ?? ''),
    ...objectives.map((objective) => of[objective] ?? null),
    standing,
    run?.tightest_ratio ?? null,
    run?.binding ?? null,
    run?.situation ?? null,
  ];
}

/** The same in words, for a page that people read. */
export function designWordsHead({ varied, objectives }: DesignsReport): readonly string[] {
  return [
    ...varied,
    ...objectives.map((objective) => objectiveWords[objective]),
    'standing',
    'headroom',
    'binding',
    'situation',
  ];
}

export function designWordsRow({ varied, objectives }: DesignsReport): (row: DesignRow) => PlainRow {
  return ({ values, objectives: of, standing, run }) => [
    ...varied.map((path) => values[path] ?? ''),
    ...objectives.map((objective) => valueText(objective, of[objective])),
    standing,
    run === null ? '' : headroomWords(run.tightest_ratio),
    run?.binding ?? '',
    run?.situation ?? '',
  ];
}
