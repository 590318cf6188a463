/** The bars of the cabinet file: segments from the model, link bars and the tie with values of their own. */

import type { Sheet } from '../sheet.ts';
import { barParts, closed, linkPlace, linkRack } from '../tables.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import type { Branch, Leaf } from '../text/document.ts';
import { quantity } from '../text/field.ts';
import { type Model, type ModelShape, openModel, putModel } from '../text/model-file.ts';
import { writeFlag, writeOwn } from './own-values.ts';
import type { Structure } from './structure.ts';

type Joints = Pick<Structure, 'links' | 'tie'>;

/** What a model file of bars holds. */
export const barsShape: ModelShape = { model: 'bars', under: 'parts', tables: barParts };

export function readBars(file: string, root: Branch, desk: Desk, sheet: Sheet): Joints {
  const { problems } = desk;
  const entry = required(root, 'bars', '', 'the bars', problems);
  const branch = entry === null ? null : asBranch(entry.node, 'bars', problems);
  if (branch === null) return { links: [], tie: null };
  refuseUnknownKeys(branch, ['model', 'links', 'tie'], 'bars', problems);
  const named = required(branch, 'model', 'bars', 'a model file of bars', problems);
  const name = named === null ? null : asLeaf(named.node, 'bars.model', problems);
  const model = name === null ? null : openModel(file, name, barsShape, 'bars.model', desk);
  for (const part of ['segment', 'rack_segment', 'contact', 'rack_node'] as const) {
    putModel(model, part, barParts[part], `bars.${part}`, sheet);
  }
  return { links: readLinks(branch, model, sheet), tie: readTie(branch, model, sheet) };
}

function putJoint(part: 'link' | 'tie', path: string, own: Branch, model: Model | null, sheet: Sheet): void {
  putModel(model, part, barParts[part], path, sheet);
  for (const [key, spec] of Object.entries(barParts[part])) writeOwn(own, key, path, quantity(spec), sheet);
  writeFlag(own, 'closed', path, closed, sheet);
}

function readLinks(branch: Branch, model: Model | null, sheet: Sheet): { id: string; section: Leaf }[] {
  const { problems } = sheet;
  const links: { id: string; section: Leaf }[] = [];
  const entry = required(branch, 'links', 'bars', 'the link bars to the rack', problems);
  const held = entry === null ? null : asBranch(entry.node, 'bars.links', problems);
  for (const [id, { node }] of held?.entries ?? []) {
    const path = `bars.links.${id}`;
    const own = asBranch(node, path, problems);
    if (own === null) continue;
    refuseUnknownKeys(
      own,
      ['section', 'place', 'rack', 'closed', ...Object.keys(barParts.link)],
      path,
      problems,
    );
    putJoint('link', path, own, model, sheet);
    required(own, 'place', path, 'place along the section, 1 next to the link end', problems);
    writeOwn(own, 'place', path, linkPlace, sheet);
    required(own, 'rack', path, 'node of the rack bar, 1 is the first', problems);
    writeOwn(own, 'rack', path, linkRack, sheet);
    const written = required(own, 'section', path, 'the section it starts from', problems);
    const section = written === null ? null : asLeaf(written.node, joined(path, 'section'), problems);
    if (section !== null) links.push({ id, section });
  }
  return links;
}

/** Name of the tie; null where the file has none, or says `tie: none`. */
function readTie(branch: Branch, model: Model | null, sheet: Sheet): string | null {
  const { problems } = sheet;
  const entry = branch.entries.get('tie');
  if (entry === undefined) return null;
  if (entry.node.kind === 'leaf' && entry.node.text === 'none') return null;
  const own = asBranch(entry.node, 'bars.tie', problems);
  if (own === null) return null;
  refuseUnknownKeys(own, ['id', 'closed', ...Object.keys(barParts.tie)], 'bars.tie', problems);
  putJoint('tie', 'bars.tie', own, model, sheet);
  const written = own.entries.get('id');
  const id = written === undefined ? null : asLeaf(written.node, 'bars.tie.id', problems);
  return id?.text ?? 'tie';
}
