/** What the models say of how far their numbers may lie off, as tolerances. */
import { formatQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { type Cell, groupPath } from '../../scenario/sheet.ts';
import type { Note } from '../../scenario/text/sourced.ts';

/**
 * Every value whose model states a low and a high, by the distribution that it states, uniform where it states none; or a
 * tolerance about the value. What is common to the units of a model is drawn once, where all units of the kind have it
 * alike. A value that something wrote over is what was written, and is not drawn.
 */
export function modelTolerances({ notes, cells }: ReadScenario): [path: string, tolerance: string][] {
  const each = [...notes].flatMap(([path, note]) => {
    const sentence = sentenceOf(note, cells.get(path)!);
    return sentence === null ? [] : [{ path, sentence, common: note.common }];
  });
  const sentenceAt = new Map(each.map(({ path, sentence, common }) => [path, `${sentence} ${common}`]));
  const written = new Map<string, string>();
  for (const { path, sentence, common } of each) {
    const group = common ? groupPath(path) : null;
    const alike =
      group !== null &&
      [...cells.keys()].every(
        (other) => groupPath(other) !== group || sentenceAt.get(other) === sentenceAt.get(path),
      );
    if (alike) written.set(group, `${sentence}, common`);
    else written.set(path, sentence);
  }
  return [...written];
}

function sentenceOf(note: Note, { value, field }: Cell): string | null {
  if (typeof value !== 'number' || field.kind !== 'quantity') return null;
  const { low, high, tolerance_ratio, distribution } = note;
  if (low !== null && high !== null && low < high) {
    const { dimension } = field.spec;
    const [from, to] = [formatQuantity(low, dimension), formatQuantity(high, dimension)];
    return `${distribution ?? 'uniform'} from ${from} to ${to}`;
  }
  if (tolerance_ratio === null || tolerance_ratio === 0 || note.value === 0) return null;
  return `${distribution ?? 'uniform'} by ${formatQuantity(tolerance_ratio, 'ratio')}`;
}
