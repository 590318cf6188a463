/** A program in C that runs the laws over their vectors and says how many numbers differ. */
import { gainsFile, gainsName } from './gains-text.ts';
import type { Heard, Part } from './heard.ts';
import type { Leaf } from './leaves.ts';
import { elementOf, type NumberForm } from './number-form.ts';

export const replayFile = 'replay.c';

/** How the numbers of a form are read, compared and spoken of. */
export interface ReplayForm extends Pick<NumberForm, 'type'> {
  /** What the program does, as its head says it. */
  readonly says: string;
  /** The functions that compare. */
  readonly compares: string;
  /** What is printed of a law at its end. */
  readonly concludes: string;
  /** What `replay` takes beside, is handed of a law, and keeps of it. */
  readonly taken: string;
  readonly handed: (id: string) => string;
  readonly fields: string;
  readonly begins: string;
  /** What stands before the rows of a law. */
  before(heard: Heard): readonly string[];
  /** A number of the vectors, and what it is compared with. */
  read(leaf: Leaf, heard: Heard): string;
  compare(place: string, leaf: Leaf, heard: Heard): string;
}

export const vectorsFile = ({ id }: Pick<Heard, 'id'>): string => `${id}.vectors`;

export function replayText(all: readonly Heard[], form: ReplayForm): string {
  return [
    head(form),
    ...all.map((one) => lawText(one, form)),
    'int main(int argc, char **argv) {',
    '  const char *folder = argc > 1 ? argv[1] : ".";',
    '  unsigned long wrong = 0;',
    ...all.map(
      ({ id, rows }) => `  wrong += replay(folder, "${id}", ${id}_rows, ${rows}${form.handed(id)});`,
    ),
    '  return wrong == 0 ? 0 : 1;',
    '}',
    '',
  ].join('\n');
}

const head = (form: ReplayForm): string => `${form.says}
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "${gainsFile}"

/* What was compared so far of one law. */
typedef struct {
  FILE *file;
  const char *name;
  unsigned long rows, compared, differ;${form.fields}
} Replay;

static void fail(const Replay *at, const char *why) {
  fprintf(stderr, "%s.vectors, row %lu: %s\\n", at->name, at->rows, why);
  exit(1);
}

/* The next word of the file; 0 at its end. Lines that begin with # are for people. */
static int word(const Replay *at, char *text) {
  for (;;) {
    if (fscanf(at->file, "%63s", text) != 1) {
      return 0;
    }
    if (text[0] != '#') {
      return 1;
    }
    for (int c = fgetc(at->file); c != '\\n' && c != EOF; c = fgetc(at->file)) {
    }
  }
}

static double number(const Replay *at) {
  char text[64];
  char *end = text;
  if (!word(at, text)) {
    fail(at, "ends within the row");
  }
  const double x = strtod(text, &end);
  if (*end != '\\0') {
    fail(at, "holds what is no number");
  }
  return x;
}

/* Begins the next row; 0 at the end. */
static int begins(Replay *at) {
  char text[64];
  if (!word(at, text)) {
    return 0;
  }
  at->rows++;
  return 1;
}

${form.compares}
/* runs: rows that the file was written with. */
static unsigned long replay(const char *folder, const char *name, void (*rows)(Replay *), unsigned long runs${form.taken}) {
  char path[4096];
  if (snprintf(path, sizeof path, "%s/%s.vectors", folder, name) >= (int)sizeof path) {
    fprintf(stderr, "%s: a path too long\\n", folder);
    return 1;
  }
  Replay at = {.file = fopen(path, "r"), .name = name${form.begins}};
  if (at.file == NULL) {
    perror(path);
    return 1;
  }
  rows(&at);
  fclose(at.file);
  if (at.rows != runs) {
    fprintf(stderr, "%s.vectors: %lu runs, written with %lu\\n", name, at.rows, runs);
    return 1;
  }
  ${form.concludes}
  return at.differ;
}
`;

/** What one law holds, and its rows. */
function lawText(heard: Heard, form: ReplayForm): string {
  const { id, inC, memory, input, command, gains } = heard;
  const parts = [memory, input, command];
  const taken = inC.parameters.map(([name]) => {
    const part = gains.find((one) => one.name === name);
    if (part !== undefined) return `&${gainsName(heard, part)}`;
    return parts.find((one) => one.name === name)!.structure === null ? name : `&${name}`;
  });
  return [
    ...form.before(heard),
    `static void ${id}_rows(Replay *at) {`,
    ...parts.flatMap((part) => declared(part, form)),
    '  if (!begins(at)) {',
    '    fail(at, "holds nothing");',
    '  }',
    '  at->rows = 0;',
    ...[memory, command].flatMap((part) =>
      each(part, (place, leaf) => `${place} = ${form.read(leaf, heard)};`),
    ),
    '  while (begins(at)) {',
    ...indented(each(input, (place, leaf) => `${place} = ${form.read(leaf, heard)};`)),
    `    ${inC.runs}(${taken.join(', ')});`,
    ...indented(
      [memory, command].flatMap((part) =>
        each(part, (place, leaf) => `${form.compare(place, leaf, heard)};`),
      ),
    ),
    '  }',
    '}',
    '',
  ].join('\n');
}

/** A structure over columns of its own; its constant ones are filled here, so that it points at them. */
function declared({ name, structure, leaves }: Part, form: ReplayForm): string[] {
  const columns = leaves.filter(({ length }) => length !== null);
  const lines = columns.map(
    (leaf) => `  static ${elementOf(form, leaf.kind)} ${columnName(name, structure, leaf)}[${leaf.length}];`,
  );
  if (structure === null) return lines;
  const points = columns.map((leaf) => `.${leaf.path.join('.')} = ${columnName(name, structure, leaf)}`);
  // All others begin at 0.
  const first = points.length > 0 ? points.join(', ') : `.${leaves[0]!.path.join('.')} = 0`;
  return [...lines, `  ${structure} ${name} = {${first}};`];
}

const columnName = (name: string, structure: string | null, leaf: Leaf): string =>
  structure === null ? name : `${name}_${leaf.path.join('_')}`;

/** A line for each number of a part, columns in a loop. */
function each({ name, structure, leaves }: Part, line: (place: string, leaf: Leaf) => string): string[] {
  return leaves.flatMap((leaf) => {
    if (leaf.length === null) return [`  ${line(`${name}.${leaf.path.join('.')}`, leaf)}`];
    const place = `${columnName(name, structure, leaf)}[k]`;
    return [`  for (int k = 0; k < ${leaf.length}; k++) {`, `    ${line(place, leaf)}`, '  }'];
  });
}

const indented = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`);
