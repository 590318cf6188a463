/**
 * A gains file: gains, periods, latencies and thresholds by path, each with its source, kept beside the firmware's
 * own code and named by a scenario as `gains: ../models/gains-fast-signal.yaml`. Its values are changes, made
 * before the scenario's own.
 */
import { asBranch, asLeaf, joined, refuseUnknownKeys, required, wordOf } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, problemAt } from '../text/document.ts';
import { besideFile } from '../text/paths.ts';
import type { PlacedChange } from './run-fields.ts';

/** What a gains file may say. */
export const gainsFileKeys: readonly string[] = ['gains', 'title', 'about', 'values'];
/** What it may say of a value. */
export const gainsValueKeys: readonly string[] = ['value', 'source', 'why', 'citation'];
const sources = ['published', 'derived', 'assumed', 'measured'];

/** Changes of the gains file that `root` of the scenario at `file` names; none where it names none. */
export function readGains(file: string, root: Branch, desk: Desk): PlacedChange[] {
  const name = wordOf(root, 'gains', '', desk.problems);
  if (name === null) return [];
  const gains = desk.document(besideFile(file, name.text), name.origin, 'gains');
  if (gains === null) return [];
  refuseUnknownKeys(gains, gainsFileKeys, '', desk.problems);
  required(gains, 'gains', '', 'the name of the gains', desk.problems);
  const entry = required(gains, 'values', '', 'paths and their values', desk.problems);
  const values = entry === null ? null : asBranch(entry.node, 'values', desk.problems);
  const changes: PlacedChange[] = [];
  for (const [path, { node, keyOrigin }] of values?.entries ?? []) {
    const branch = asBranch(node, path, desk.problems);
    if (branch === null) continue;
    refuseUnknownKeys(branch, gainsValueKeys, path, desk.problems);
    const value = required(branch, 'value', path, 'the value', desk.problems);
    const leaf = value === null ? null : asLeaf(value.node, joined(path, 'value'), desk.problems);
    const source = wordOf(branch, 'source', path, desk.problems);
    const reason = branch.entries.get('why') ?? branch.entries.get('citation');
    if (source === null || !sources.includes(source.text) || reason === undefined) {
      desk.problems.push(
        problemAt(
          source?.origin ?? keyOrigin,
          path,
          source === null
            ? 'a value without its source'
            : `source ${source.text}${reason === undefined ? ' without a reason' : ''}`,
          `one of ${sources.join(', ')}, with why or citation`,
          'write { value: …, source: assumed, why: "…" }',
        ),
      );
    }
    if (leaf !== null) changes.push({ path, value: leaf.text, origin: keyOrigin });
  }
  return changes;
}
