/** What is scaled, by how much, and what a scale makes of it. */
import { BadInput } from '../../base/problem.ts';
import { formatPercent, formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { asWritten } from '../../scenario/sheet.ts';
import { nearestOr } from '../../scenario/text/nearest.ts';
import type { StudyFile } from '../written/study-file.ts';
import { inKind, valuesOf } from '../written/values.ts';

/** Significant digits of a scaled value. */
export const digits = 9;

export function scaledBy(
  scale: number,
  paths: readonly string[],
  { cells }: ReadScenario,
): readonly Change[] {
  return paths.flatMap((path) => {
    const targets = cells.has(path) ? [path] : [...cells.keys()].filter((cell) => inKind(cell, path));
    return targets.map((target) => {
      const cell = cells.get(target)!;
      const { field } = cell;
      const dimension = field.kind === 'quantity' ? field.spec.dimension : 'ratio';
      return { path: target, value: formatQuantity(Number(asWritten(cell)) * scale, dimension, digits) };
    });
  });
}

/** Paths that are scaled: those named, or the load. */
export function scaledPaths(study: StudyFile, read: ReadScenario): readonly string[] {
  const { cells, paths } = read;
  if (study.scale.length === 0) return loadPaths(read);
  const wrong = study.scale.filter(
    (path) => !isNumber(path, cells) && ![...cells.keys()].some((cell) => inKind(cell, path)),
  );
  if (wrong.length === 0) return study.scale;
  throw new BadInput(
    wrong.map((path) => ({
      severity: 'error' as const,
      path,
      found: `path ${path}`,
      expected: 'a path of the scenario that is a number',
      mend: nearestOr('the command check --paths lists them all', path, [...paths]),
    })),
  );
}

/** What makes a load larger: every power of it; of a recording played as it is, its scale. */
export function loadPaths({ cells, scenario }: ReadScenario): readonly string[] {
  const powers = [...cells].flatMap(([path, { field }]) =>
    path.startsWith('load.') &&
    field.kind === 'quantity' &&
    field.spec.dimension === 'power' &&
    isNumber(path, cells)
      ? [path]
      : [],
  );
  return powers.length === 0 && scenario.load.kind === 'recorded' ? ['load.scale'] : powers;
}

function isNumber(path: string, cells: ReadScenario['cells']): boolean {
  const cell = cells.get(path);
  return cell?.field.kind === 'quantity' && typeof cell.value === 'number';
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}

/** Scales to try, the largest first. */
export function scalesOf({ words }: StudyFile): readonly number[] {
  const from = words.get('from') ?? '50 %';
  const to = words.get('to') ?? '150 %';
  const within = words.get('within') ?? '1 %';
  const read = (path: string, text: string): number => {
    const reading = readQuantity(text, 'ratio');
    if (!reading.ok) throw new BadInput([{ severity: 'error', path, ...reading }]);
    if (reading.value > 0) return reading.value;
    return refuse(path, `${text}, which is not above 0`, 'a share above 0', 'write it like 50 %');
  };
  const [low, high] = [read('from', from), read('to', to)];
  if (low > high)
    refuse('from', `scales from ${from} to ${to}`, 'the smallest scale first', `write from ${to} to ${from}`);
  const step = read('within', within);
  const most = 1000;
  if ((high - low) / step >= most) {
    const share = low >= 5 ? `write from ${low} % to ${high} %; ` : '';
    refuse(
      'within',
      `more than ${most} scales from ${formatPercent(low)} to ${formatPercent(high)}, ${within} apart`,
      `at most ${most}`,
      `${share}take a larger step within which the rating is found`,
    );
  }
  return valuesOf('scale', `${from} to ${to} by ${within}`, 'ratio')
    .map(Number)
    .sort((a, b) => b - a);
}
