/** An axis of a gains map: a path and the values it takes, evenly or evenly on a log scale. */
import { BadInput } from '../../base/problem.ts';
import { type Dimension, formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';
import { dimensionOf, isCountedInTicks, refuseDescent, valuesOf } from '../written/values.ts';

export interface GainsAxis {
  readonly path: string;
  /** As they are set, with units. */
  readonly values: readonly string[];
  /** The same as numbers [SI]. */
  readonly numbers: readonly number[];
  readonly unit: Dimension;
  readonly scale: 'even' | 'log';
  /** Values are whole multiples of this [SI]: times that the run counts in ticks; 0 where any value is. */
  readonly step: number;
}

/** Most points of an axis. */
const most = 200;

/** Reads `firmware.share.time_constant=20 ms to 1 s in 24 log`, as `option` was given. Throws BadInput. */
export function axisOf(
  option: '--x' | '--y',
  word: string,
  model: Pick<ReadScenario, 'paths' | 'cells' | 'scenario'>,
): GainsAxis {
  try {
    return axisIn(word, model);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    throw new BadInput(error.problems.map((problem) => ({ ...problem, file: option })));
  }
}

function axisIn(
  word: string,
  { paths, cells, scenario }: Pick<ReadScenario, 'paths' | 'cells' | 'scenario'>,
): GainsAxis {
  const cut = word.indexOf('=');
  const path = word.slice(0, Math.max(0, cut)).trim();
  const text = word.slice(cut + 1).trim();
  if (cut < 1 || text === '') {
    return refuse(
      word,
      word,
      'a path and its values',
      'write firmware.share.time_constant="20 ms to 1 s in 24 log"',
    );
  }
  const unit = dimensionOf(path, cells);
  if (unit === null || !(paths.includes(path) || cells.has(path))) {
    const near = nearestWords(path, paths);
    return refuse(
      path,
      unit === null && paths.includes(path)
        ? 'a value that is no number'
        : 'a parameter that the model does not have',
      'a parameter of the model',
      near.length > 0 ? `perhaps ${listed(near)}` : 'the command check --paths lists them all',
    );
  }
  const log = /^(.+?)\s+to\s+(.+?)\s+in\s+(\d+)\s+log$/.exec(text);
  const values =
    log === null
      ? valuesOf(path, text, unit).map((value) => rounded(value, unit))
      : logValues(path, log, unit);
  if (values.length < 2)
    return refuse(
      path,
      `${text}, a grid of one point`,
      'two points or more',
      `write ${text.replace(/\s+in\s+\d+(\s+log)?$/, '')} in 24`,
    );
  if (values.length > most) return refuse(path, `${values.length} points`, `at most ${most}`, 'choose fewer');
  const numbers = values.map((value) => {
    const reading = readQuantity(value, unit);
    return reading.ok ? reading.value : Number.NaN;
  });
  const step = isCountedInTicks(path, cells) ? scenario.tick_s : 0;
  return { path, values, numbers, unit, scale: log === null ? 'even' : 'log', step };
}

/** Times to four digits, so that steps between round ends fall on whole ticks. */
function rounded(value: string, unit: Dimension): string {
  const reading = readQuantity(value, unit);
  if (unit !== 'time' || !reading.ok) return value;
  return formatQuantity(Number(reading.value.toPrecision(4)), unit);
}

function logValues(
  path: string,
  [, first = '', last = '', count = '']: RegExpExecArray,
  unit: Dimension,
): string[] {
  const [a, b] = [readQuantity(first, unit), readQuantity(last, unit)];
  const n = Number(count);
  for (const reading of [a, b])
    if (!reading.ok) return refuse(path, reading.found, reading.expected, reading.mend);
  if (!a.ok || !b.ok) return [];
  if (!(a.value > 0 && b.value > 0))
    return refuse(path, `${first} to ${last} on a log scale`, 'ends above 0', 'leave log out');
  if (a.value > b.value)
    refuseDescent(path, `${first} to ${last} in ${count} log`, `${last} to ${first} in ${count} log`, 'all');
  if (n === 1) return [formatQuantity(a.value, unit)];
  return Array.from({ length: n }, (_, k) =>
    // Three digits: values as people write them, and times on whole ticks.
    formatQuantity(Number((a.value * (b.value / a.value) ** (k / (n - 1))).toPrecision(3)), unit),
  );
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
