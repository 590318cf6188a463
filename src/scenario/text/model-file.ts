/** Opens the model files that a cabinet names and puts their values into the sheet. */

import type { Cell, Sheet } from '../sheet.ts';
import { choiceOf, type ParameterTable, type WordTable } from '../tables.ts';
import { joined, wordOf } from './branches.ts';
import type { Desk } from './desk.ts';
import { type Leaf, problemAt } from './document.ts';
import { quantity } from './field.ts';
import { type Model, type ModelShape, readModel } from './model.ts';
import { besideFile } from './paths.ts';

export type { Model, ModelShape };

/** The model in the file that `name`, a word of `file`, stands for; null when it cannot be had. */
export function openModel(
  file: string,
  name: Leaf,
  shape: ModelShape,
  path: string,
  desk: Desk,
): Model | null {
  return inChain(file, name, shape, path, desk, []);
}

/** `chain`: the files that derive from this one, the first of them first. */
function inChain(
  file: string,
  name: Leaf,
  shape: ModelShape,
  path: string,
  desk: Desk,
  chain: readonly string[],
): Model | null {
  const target = besideFile(file, name.text);
  if (chain.includes(target)) {
    const circle = [...chain.slice(chain.indexOf(target)), target].join(' → ');
    desk.problems.push(
      problemAt(
        name.origin,
        path,
        `a circle: ${circle}`,
        'a chain that ends at a model that is like no other',
        'let one of them state its own numbers, without like',
      ),
    );
    return null;
  }
  const root = desk.document(target, name.origin, path);
  if (root === null) return null;
  const like = wordOf(root, 'like', '', desk.problems);
  const base =
    like === null
      ? null
      : (inChain(target, like, shape, 'like', desk, [...chain, target]) ?? {
          title: '',
          file: target,
          values: new Map(),
        });
  return readModel(root, shape, base, desk.problems);
}

/** Puts one table of a model below `path`; what the model leaves out takes the table's fallback. */
export function putModel(
  model: Model | null,
  part: string,
  table: ParameterTable,
  path: string,
  sheet: Sheet,
): void {
  putCells(model, cellsOf(model, part, table), path, sheet);
}

/** The cells of one table of a model, which units of a kind may share: a cell is replaced, and never written to. */
export function cellsOf(model: Model | null, part: string, table: ParameterTable): ReadonlyMap<string, Cell> {
  const cells = new Map<string, Cell>();
  for (const [key, spec] of Object.entries(table)) {
    const value = model?.values.get(joined(part, key));
    const field = quantity(spec);
    const silent = spec.optional === true ? null : spec.fallback;
    if (value !== undefined) cells.set(key, { field, ...value });
    else if (silent !== undefined) cells.set(key, { field, value: silent, origin: null, note: null });
  }
  return cells;
}

/** Puts cells of a model below `path`. */
export function putCells(
  model: Model | null,
  cells: ReadonlyMap<string, Cell>,
  path: string,
  sheet: Sheet,
): void {
  if (model !== null) sheet.models.set(path, { file: model.file, title: model.title });
  for (const [key, cell] of cells) sheet.put(joined(path, key), cell);
}

/** Puts the words of a model below `path`, each under its own; what the model leaves out takes its fallback. */
export function putWords(model: Model | null, words: WordTable, path: string, sheet: Sheet): void {
  for (const [key, spec] of Object.entries(words)) {
    const value = model?.values.get(key);
    const field = choiceOf(spec);
    if (value !== undefined) sheet.put(joined(path, key), { field, ...value });
    else if (spec.fallback !== undefined) {
      sheet.put(joined(path, key), { field, value: spec.fallback, origin: null, note: null });
    }
  }
}
