/** What the readme says of laws in fixed point: formats, bounds, where words saturate. */

import type { Change } from '../../scenario/scenario.ts';
import type { Heard } from '../heard.ts';
import { laws } from '../made/laws.ts';
import type { NumberWords } from '../readme-text.ts';
import { fixedPointFile } from './fixed-point-text.ts';
import { type Format, formatName } from './formats.ts';
import type { FixedPoint } from './listen-fixed.ts';
import { nameOf, outputsOf } from './replay-fixed.ts';
import { isNumbers } from './shadow.ts';

export function fixedWords(
  all: readonly Heard[],
  { formats, bounds }: Pick<FixedPoint, 'formats' | 'bounds'>,
  changes: readonly Change[],
): NumberWords {
  const names = [...new Set(all.map(({ law }) => law))];
  return {
    gains: 'in words of 32 bits, the real value and the format beside each',
    replay: 'compares them with the run: the largest difference of each output, beside its bound',
    files: [`| ${fixedPointFile} | sums, products, quotients and comparisons between formats |`],
    needs: `It needs C99 with 64-bit integers, and no library. Commands are not the run's bit for bit: ./replay prints how far each comes from
it beside a bound, and fails where one is beyond. No law of these is left out in fixed point: none has an exponential or a root,
and what they divide by (trays on line, a window's energy, 1 + q, modules alive) stays away from 0 while a unit takes part; over
0 a quotient is the largest word.
`,
    sections: `
## Formats

A word of Qm.n stands for it times 2 to the power of -n. Fields of one unit share a format that holds twice the largest that
the run and the coefficients show; other fields hold twice their own largest. Beyond that a word saturates: what you fill in, and
what a law remembers and commands. What is worked out in between has formats that follow, and does not saturate while those hold
and divisors stay above half their smallest in the run. Every result is rounded to nearest, halves away from zero.

| law | field | format | one count | saturates at |
|---|---|---|---|---|
${names.flatMap((law) => fieldRows(law, formats.get(law)!)).join('\n')}

## How far from the run

Each number is bounded along the run: by the rounding of every coefficient, input and step, times how far the law passes it on;
of what the law remembers it is carried from run to run by its slope, to first order. Where a comparison is closer than both
errors, the law is followed both ways and the difference added. The bound is that of this scenario's inputs; the loop is not
closed over the difference.

| task | output | bound |
|---|---|---|
${all.flatMap((heard) => outputsOf(heard).map((leaf) => boundRow(heard, leaf, bounds))).join('\n')}
${
  changes.length === 0
    ? ''
    : `
## What rounding does to margins

With these changes the scenario has the coefficients as the words do: give them to \`buswake response\` beside its name and compare
its margins. Not among them: the gain of the share and the integral part
of voltage loops, which stand on several parameters, limits, and ratings of trays.

\`\`\`text
${changes.map(({ path, value }) => `--set "${path}=${value}"`).join('\n')}
\`\`\`
`
}`,
    careful:
      'Formats hold for what this scenario showed: choose one that reaches the ends of your ranges, faults among them.',
  };
}

function fieldRows(law: keyof typeof laws, formats: readonly Format[]): string[] {
  return laws[law].fixed.slots.flatMap(({ field }, k) => {
    if (field === null) return [];
    const format = formats[k]!;
    const digits = (x: number): string => String(Number(x.toPrecision(3)));
    return [
      `| ${law} | ${field} | ${formatName(format)} | ${digits(format.count)} | ${digits(format.most)} |`,
    ];
  });
}

function boundRow(
  heard: Heard,
  leaf: ReturnType<typeof outputsOf>[number],
  bounds: FixedPoint['bounds'],
): string {
  const bound = bounds.of(heard.id, leaf.field);
  const words = isNumbers(leaf)
    ? String(Number(bound.toPrecision(3)))
    : bound === 0
      ? 'the same'
      : `${bound} of its settings may differ`;
  return `| ${heard.id} | ${nameOf(leaf)} | ${words} |`;
}
