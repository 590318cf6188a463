/** Replay on 64-bit floats: every number is to be the same, bit for bit. */
import { elementInC } from './law-in-c.ts';
import type { ReplayForm } from './replay-text.ts';

export const replayInFloats: ReplayForm = {
  type: 'double',
  says: `/*
 * Runs each law over its vectors: memory begins as the first row says, each row tells the law what it was told in the run, and
 * what it then remembers and commands is compared, bit for bit. Exit code 0 where nothing differs, 1 where something does or a
 * file cannot be read. The folder of the vectors may be named; it is this one otherwise.
 */`,
  compares: `static void compare(Replay *at, double got) {
  const double expected = number(at);
  at->compared++;
  if (memcmp(&got, &expected, sizeof got) == 0) {
    return;
  }
  if (at->differ++ == 0) {
    fprintf(stderr, "%s.vectors, row %lu: %.17g, expected %.17g\\n", at->name, at->rows, got, expected);
  }
}
`,
  concludes: `printf("%s: %lu runs, %lu numbers, %lu differ\\n", name, at.rows, at.compared, at.differ);`,
  taken: '',
  handed: () => '',
  fields: '',
  begins: '',
  before: () => [],
  read: ({ kind }) =>
    kind === 'boolean'
      ? 'number(at) != 0'
      : `(${elementInC[kind] ?? (kind === 'Int' ? 'int32_t' : 'double')})number(at)`,
  compare: (place) => `compare(at, ${place})`,
};
