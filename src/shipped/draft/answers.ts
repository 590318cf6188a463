/** What a new cabinet is drafted from: a few answers as words, and what they come to with everything that was left open. */
import { counted } from '../../base/counted.ts';
import { BadInput, type Problem } from '../../base/problem.ts';
import { type Dimension, exampleOf, formatQuantity, readQuantity } from '../../base/quantity.ts';
import { type Kit, kitFor, kits, kitVoltages, type SizedFamily } from './kits.ts';

/** The questions, in the order in which they are asked; `null` of `usual`: there is none. */
export const questions = {
  sleds: { asks: 'sleds and the peak power of each', example: '16 of 15 kW', usual: null },
  shelves: { asks: 'rectifier shelves', example: '8 of 36 kW', usual: 'one more than the load needs' },
  trays: {
    asks: 'supercapacitor trays, of one kind or more',
    example: '6 of 20 kW, 2 of 10 kW',
    usual: 'power for a start from idle, and a spare',
  },
  banks: { asks: 'capacitor banks', example: '2 of 80 mF', usual: 'one a section' },
  batteries: { asks: 'battery shelves', example: '5 of 60 kW', usual: 'one more than the load needs' },
  nominal: { asks: 'nominal voltage of the bus', example: '400 V', usual: '50 V' },
  feeder: { asks: 'feeder voltage, line to line', example: '480 V', usual: '400 V' },
  frequency: { asks: 'line frequency', example: '60 Hz', usual: '50 Hz' },
  sections: { asks: 'sections of the cabinet bar, 1 or 2', example: '2', usual: '2' },
} as const;

export type Question = keyof typeof questions;

export type Answers = Readonly<Partial<Record<Question, string>>>;

/** So many units of one size [W; a bank's in F]. */
export interface Batch {
  readonly count: number;
  readonly size: number;
}

export interface Draft {
  readonly sleds: readonly Batch[];
  readonly shelves: readonly Batch[];
  readonly trays: readonly Batch[];
  readonly banks: readonly Batch[];
  readonly batteries: readonly Batch[];
  readonly nominal_V: number;
  readonly kit: Kit;
  readonly line_V: number;
  readonly frequency_Hz: number;
  readonly sections: 1 | 2;
}

/** Load of idle sleds over their peak, as the reference cabinet has it (assumed). */
export const idle_ratio = 0.13;

/** Part of a tray's converter that a limit grants: `tray-converter`. */
const granted_ratio = 0.95;

/** Power of the trays that a start from idle to full takes, at what is granted of their converters. */
export function startPower_W(rated_W: number): number {
  return ((1 - idle_ratio) * rated_W) / granted_ratio;
}

/** Throws BadInput with everything that is wrong. */
export function draftFrom(answers: Answers): Draft {
  const problems: Problem[] = [];
  const { nominal_V, kit } = nominalOf(answers, problems);
  const batches = (family: SizedFamily, usual: number): readonly Batch[] =>
    answers[family] === undefined
      ? [{ count: usual, size: kit.sizes[family] }]
      : batchesOf(family, answers[family], kit.sizes[family], problems);
  const number = (question: Question, dimension: Dimension, least: number, most: number): number => {
    const text = answers[question] ?? questions[question].usual ?? '';
    const reading = readQuantity(text, dimension);
    if (reading.ok && reading.value >= least && reading.value <= most) return reading.value;
    problems.push({
      severity: 'error',
      file: `--${question}`,
      found: reading.ok ? text : reading.found,
      expected: reading.ok
        ? `${questions[question].asks}: from ${formatQuantity(least, dimension)} to ${formatQuantity(most, dimension)}`
        : reading.expected,
      mend: `write it like ${questions[question].example}`,
    });
    return least;
  };
  const sections = number('sections', 'count', 1, 2) as 1 | 2;
  const sleds = batches('sleds', 1);
  const rated_W = totalOf(sleds);
  const draft: Draft = {
    sleds,
    shelves: batches('shelves', Math.ceil(rated_W / kit.sizes.shelves) + 1),
    trays: batches('trays', Math.ceil(startPower_W(rated_W) / kit.sizes.trays) + 1),
    banks: batches('banks', sections),
    batteries: batches('batteries', Math.ceil(rated_W / kit.sizes.batteries) + 1),
    nominal_V,
    kit,
    line_V: number('feeder', 'voltage', 100, 1000),
    frequency_Hz: number('frequency', 'frequency', 45, 65),
    sections,
  };
  if (answers.sleds === undefined) {
    problems.push({
      severity: 'error',
      file: '--sleds',
      found: 'no sleds',
      expected: questions.sleds.asks,
      mend: `give --sleds "${questions.sleds.example}"`,
    });
  }
  if (countOf(draft.shelves) < sections) {
    problems.push({
      severity: 'error',
      file: '--shelves',
      found: `${counted(countOf(draft.shelves), 'shelf', 'shelves')} for ${sections} sections`,
      expected: 'a shelf in each section',
      mend: 'write more shelves, or --sections 1',
    });
  }
  if (problems.length > 0) throw new BadInput(problems);
  return draft;
}

/** The bus and what stands on it; that of the first kit where it is refused. */
function nominalOf(
  { nominal: answer }: Answers,
  problems: Problem[],
): { readonly nominal_V: number; readonly kit: Kit } {
  const { asks, usual, example } = questions.nominal;
  const reading = readQuantity(answer ?? usual, 'voltage');
  const kit = reading.ok ? kitFor(reading.value) : null;
  if (reading.ok && kit !== null) return { nominal_V: reading.value, kit };
  problems.push({
    severity: 'error',
    file: '--nominal',
    found: reading.ok ? (answer ?? usual) : reading.found,
    expected: `${asks}: ${kitVoltages()}`,
    mend: `write it like ${example}; for another one change nominal and models in the files of the nearest`,
  });
  return { nominal_V: kits[0]!.nominal_V, kit: kits[0]! };
}

/** All sizes together. */
export function totalOf(batches: readonly Batch[]): number {
  return batches.reduce((sum, { count, size }) => sum + count * size, 0);
}

export function countOf(batches: readonly Batch[]): number {
  return batches.reduce((sum, { count }) => sum + count, 0);
}

/** Most units of a kind: a cabinet of many more is no cabinet, and every step would carry them. */
const mostUnits = 200;

/** `6 of 20 kW, 2 of 10 kW`; a count alone is of the shipped size, `none` and 0 are no unit. */
function batchesOf(family: SizedFamily, text: string, usual: number, problems: Problem[]): readonly Batch[] {
  const dimension: Dimension = family === 'banks' ? 'capacitance' : 'power';
  if (text.trim() === 'none' && family !== 'sleds') return [{ count: 0, size: usual }];
  const refuse = (found: string, expected: string): Batch => {
    const mend = `write it like ${questions[family].example}`;
    problems.push({ severity: 'error', file: `--${family}`, found, expected, mend });
    return { count: 1, size: usual };
  };
  return text.split(',').map((part) => {
    const words = /^\s*(\d+)(?:\s+of\s+(.+?))?\s*$/.exec(part);
    if (words === null) return refuse(part.trim() === '' ? 'nothing' : part.trim(), questions[family].asks);
    const count = Number(words[1]);
    const least = family === 'sleds' || family === 'shelves' ? 1 : 0;
    if (count < least || count > mostUnits)
      return refuse(`${count} ${family}`, `from ${least} to ${mostUnits}`);
    if (words[2] === undefined) return { count, size: usual };
    const size = readQuantity(words[2], dimension);
    if (!size.ok) return refuse(size.found, `${questions[family].asks}, like ${exampleOf(dimension)}`);
    if (!(size.value >= usual / 8 && size.value <= usual * 8))
      return refuse(
        words[2],
        `from ${formatQuantity(usual / 8, dimension)} to ${formatQuantity(usual * 8, dimension)}, an eighth to eight times the ${formatQuantity(usual, dimension)} of the shipped model`,
      );
    return { count, size: size.value };
  });
}
