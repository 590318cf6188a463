/** Numbers that a controller of the user's own lets be seen, by names that end in their unit. */
import type { Problem } from '../../base/problem.ts';
import type { ShownNumberSpec } from '../scenario.ts';
import { asWords } from '../text/branches.ts';
import { type Branch, problemAt } from '../text/document.ts';

const named = /^([A-Za-z][\w .-]{0,39})_(V|A|W|ratio)$/;
/** Every channel is recorded at every step. */
const mostShown = 64;

export function readShown(branch: Branch, path: string, problems: Problem[]): readonly ShownNumberSpec[] {
  const node = branch.entries.get('shows')?.node;
  if (node === undefined) return [];
  const words = asWords(node, path, problems);
  if (words.length > mostShown)
    problems.push(
      problemAt(node.origin, path, `${words.length} numbers`, `at most ${mostShown}`, 'show fewer of them'),
    );
  const taken = new Set<string>();
  return words.flatMap(({ text, origin }) => {
    const parts = named.exec(text);
    if (parts === null) {
      problems.push(
        problemAt(
          origin,
          path,
          text,
          'a name of up to 40 letters, digits, blanks, dots and dashes that ends in its unit: _V, _A, _W or _ratio',
          'write, for example, error_V, or mode_ratio for a plain number',
        ),
      );
      return [];
    }
    if (taken.has(text)) {
      problems.push(
        problemAt(origin, path, `${text} a second time`, 'each name once', 'give it another name'),
      );
      return [];
    }
    taken.add(text);
    return [{ name: text, quantity: parts[1]!, unit: parts[2] as ShownNumberSpec['unit'] }];
  });
}
