/** The C that is written where numbers are words of the formats of a run. */
import { hexFloat } from '../c-number.ts';
import type { Heard } from '../heard.ts';
import { laws } from '../made/laws.ts';
import type { NumberForm } from '../number-form.ts';
import { filled } from './filled.ts';
import { type Format, formatName } from './formats.ts';
import type { LawFormats } from './ranges.ts';
import { wordOf } from './word.ts';

/** The format of a field. */
export function formatOfField(formats: LawFormats, { law }: Pick<Heard, 'law'>, field: string): Format {
  const slot = laws[law].fixed.slots.findIndex((one) => one.field === field);
  return formats.get(law)![slot]!;
}

export function inFixedPoint(formats: LawFormats): NumberForm {
  return {
    type: 'int32_t',
    texts: ({ inC, law }) => ({
      header: filled(inC.fixed.header, formats.get(law)!),
      source: filled(inC.fixed.source, formats.get(law)!),
    }),
    scaling: [
      'Scaling: words of 32 bits, the real value and the',
      'format beside each: a word of Qm.n stands for it times 2 to the power of -n. Units are those of the real value, the unit',
    ],
    includes: ['#include <stdint.h>', ''],
    coefficient: (x, leaf, heard) => {
      const format = formatOfField(formats, heard, leaf.field);
      const real = Number.isFinite(x) ? Number(x.toPrecision(12)) : 'infinite';
      return `${wordOf(x, format)} /* ${real} as ${formatName(format)} */`;
    },
    time: (name, time_s) => `static const int64_t ${name}_ns = ${nanoseconds(time_s)};`,
    times: (name, times_s) =>
      `static const int64_t ${name}_ns[${times_s.length}] = {${times_s.map(nanoseconds).join(', ')}};`,
  };
}

/** Times of tasks are whole ticks of 250 ns. */
const nanoseconds = (time_s: number): number => Math.round(time_s * 1e9);

/** A fraction as a factor of C, exact. */
export const countIn = ({ count }: Format): string => hexFloat(count);
