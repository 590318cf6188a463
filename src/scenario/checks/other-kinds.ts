/** Files of another kind in place of a scenario: said as what they are, and not key by key. */
import { BadInput } from '../../base/problem.ts';
import { type Branch, problemAt } from '../text/document.ts';

/** Keys that a scenario has not, the kind of file that has them, and what to do with one. */
const kinds: readonly (readonly [key: string, is: string, mend: string])[] = [
  [
    'study',
    'a study',
    'give it to its own command, buswake size and so on, or name the scenario that it starts from',
  ],
  ['sections', 'a cabinet', 'name a scenario whose cabinet: names this file: it is checked with it'],
  ['rows', 'a limits file', 'name a scenario whose cabinet is judged by it: it is checked with it'],
  ['values', 'a gains file', 'name a scenario whose gains: names this file: it is checked with it'],
  ['model', 'a model', 'name a scenario of a cabinet that takes this model: it is checked with it'],
];

/** Throws BadInput where the document is another kind of file. */
export function refuseOtherKinds(root: Branch): void {
  for (const [key, is, mend] of kinds) {
    const entry = root.entries.get(key);
    if (entry !== undefined)
      throw new BadInput([problemAt(entry.keyOrigin, '', `${is}, by its key ${key}`, 'a scenario', mend)]);
  }
}
