/** Where the AC side may be judged: AC there, and no shelf walking in. */

import type { Span } from '../../events/spans.ts';
import type { Case } from '../record/case.ts';
import { without } from '../record/spans.ts';

export function withoutLost(c: Case): Span[] {
  return without(c.result.window, [...c.applies.lost, ...c.applies.walkIn]);
}
