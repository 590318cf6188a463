/** Figures of parts that a study states: `figures: { trays: { cost: { value: 1250, source: …, why: … } } }`. */
import type { Problem } from '../../base/problem.ts';
import { type Figure, figureParameters } from '../../scenario/parameters/figures.ts';
import { type Family, placedFamilies } from '../../scenario/tables.ts';
import { asBranch, refuseUnknownKeys } from '../../scenario/text/branches.ts';
import type { Branch } from '../../scenario/text/document.ts';
import { quantity } from '../../scenario/text/field.ts';
import type { Origin } from '../../scenario/text/origin.ts';
import { readModelValue, type SourceKind } from '../../scenario/text/sourced.ts';

/** A figure of all units of a kind; it takes the place of what their models state. */
export interface StatedFigure {
  readonly family: Family;
  readonly figure: Figure;
  /** In the SI unit of its dimension. */
  readonly value: number;
  readonly source: SourceKind;
  readonly why: string;
  readonly origin: Origin;
}

/** What may be said of a figure. */
export const figureNoteKeys: readonly string[] = ['value', 'source', 'why', 'citation'];

const figures = Object.keys(figureParameters) as Figure[];

export function readFigures(root: Branch, problems: Problem[]): readonly StatedFigure[] {
  const entry = root.entries.get('figures');
  const branch = entry === undefined ? null : asBranch(entry.node, 'figures', problems);
  if (branch === null) return [];
  refuseUnknownKeys(branch, placedFamilies, 'figures', problems);
  return placedFamilies.flatMap((family) => {
    const node = branch.entries.get(family)?.node;
    const own = node === undefined ? null : asBranch(node, `figures.${family}`, problems);
    if (own === null) return [];
    refuseUnknownKeys(own, figures, `figures.${family}`, problems);
    return figures.flatMap((figure): StatedFigure[] => {
      const written = own.entries.get(figure)?.node;
      if (written === undefined) return [];
      const path = `figures.${family}.${figure}`;
      if (written.kind === 'branch') refuseUnknownKeys(written, figureNoteKeys, path, problems);
      const read = readModelValue(written, quantity(figureParameters[figure]), path, problems);
      if (read === null || typeof read.value !== 'number') return [];
      const { value, origin, note } = read;
      return [{ family, figure, value, source: note.source, why: note.why, origin }];
    });
  });
}
