/** Replay in fixed point: what comes of the words against the run, each output within its bound. */
import { hexFloat } from '../c-number.ts';
import type { Heard } from '../heard.ts';
import type { Leaf } from '../leaves.ts';
import type { ReplayForm } from '../replay-text.ts';
import type { Bounds } from './bounds.ts';
import { countIn, formatOfField } from './fixed-form.ts';
import type { LawFormats } from './ranges.ts';
import { isNumbers } from './shadow.ts';

export function replayInFixedPoint(formats: LawFormats, bounds: Bounds): ReplayForm {
  return {
    type: 'int32_t',
    says: `/*
 * Runs each law over its vectors: memory begins as the first row says, each row tells the law what it was told in the run, as
 * words, and what it then remembers and commands is compared with the run's. It prints the largest difference of each output
 * beside its bound, and of flags how many were set otherwise beside how many may be. Exit code 0 where all are within, 1 where
 * one is not or a file cannot be read. This program uses doubles; the laws do not.
 */`,
    compares,
    concludes: 'concludes(&at, outputs, count);',
    taken: ', Output *outputs, int count',
    handed: (id) => `, ${id}_outputs, (int)(sizeof ${id}_outputs / sizeof ${id}_outputs[0])`,
    fields: '',
    begins: '',
    before: (heard) => [
      `static Output ${heard.id}_outputs[] = {`,
      ...outputsOf(heard).map((leaf) => {
        const bound = bounds.of(heard.id, leaf.field);
        const kind = isNumbers(leaf) ? `${hexFloat(bound)} /* ${bound.toPrecision(3)} */, 0` : `0, ${bound}`;
        return `  {"${nameOf(leaf)}", ${isNumbers(leaf)}, ${kind}, 0, 0},`;
      }),
      '};',
      '',
    ],
    read: (leaf, heard) => {
      if (leaf.kind === 'boolean') return 'number(at) != 0';
      if (!isNumbers(leaf)) return `(${leaf.kind === 'Uint8Array' ? 'uint8_t' : 'int32_t'})number(at)`;
      return `wordOf(number(at), ${countIn(formatOfField(formats, heard, leaf.field))})`;
    },
    compare: (place, leaf, heard) => {
      const output = `&${heard.id}_outputs[${outputsOf(heard).findIndex(({ field }) => field === leaf.field)}]`;
      return isNumbers(leaf)
        ? `compare(at, ${place} * ${countIn(formatOfField(formats, heard, leaf.field))}, ${output})`
        : `compareFlag(at, ${place}, ${output})`;
    },
  };
}

/** What a law remembers and commands. */
export const outputsOf = ({ memory, command }: Heard): Leaf[] => [...memory.leaves, ...command.leaves];

export const nameOf = ({ field }: Leaf): string => field;

const compares = `/* What was compared of one output over all units. */
typedef struct {
  const char *name;
  bool isNumber;
  double bound;
  unsigned long open;
  double largest;
  unsigned long otherwise;
} Output;

/* A number as the nearest word, at the end of the format where it is beyond. */
static int32_t wordOf(double x, double count) {
  const double counts = x < 0 ? x / count - 0.5 : x / count + 0.5;
  return counts >= INT32_MAX ? INT32_MAX : counts <= -INT32_MAX ? -INT32_MAX : (int32_t)counts;
}

static void compare(Replay *at, double got, Output *output) {
  const double expected = number(at);
  const double apart = got < expected ? expected - got : got - expected;
  at->compared++;
  /* A comparison that fails for what is no number. */
  if (!(apart <= output->bound) && output->largest <= output->bound) {
    at->differ++;
    fprintf(stderr, "%s.vectors, row %lu: %s is %.9g, expected %.9g, bound %.3g\\n", at->name, at->rows, output->name, got,
            expected, output->bound);
  }
  if (!(apart <= output->largest)) {
    output->largest = apart;
  }
}

static void compareFlag(Replay *at, int got, Output *output) {
  at->compared++;
  if (got != (int)number(at) && output->otherwise++ == output->open) {
    at->differ++;
    fprintf(stderr, "%s.vectors, row %lu: %s is %d, and no more than %lu may differ\\n", at->name, at->rows, output->name, got,
            output->open);
  }
}

static void concludes(const Replay *at, const Output *outputs, int count) {
  printf("%s: %lu runs, %lu numbers, %lu outputs beyond their bound\\n", at->name, at->rows, at->compared, at->differ);
  for (int k = 0; k < count; k++) {
    if (outputs[k].isNumber) {
      printf("  %-26s largest difference %.3g, bound %.3g\\n", outputs[k].name, outputs[k].largest, outputs[k].bound);
    } else {
      printf("  %-26s %lu set otherwise, %lu may be\\n", outputs[k].name, outputs[k].otherwise, outputs[k].open);
    }
  }
}
`;
