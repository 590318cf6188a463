/** A text of a law in fixed point, with the formats of a run in the places that the build left open. */
import { type Format, formatName } from './formats.ts';
import { wordOf } from './word.ts';

/** `{7}` is the fraction of place 7, `{q7}` the name of its format, `{7:0.8}` the word of 0.8 in it. */
export function filled(text: string, formats: readonly Format[]): string {
  const fractions = text.replaceAll(
    /\{(q?)(\d+)(?::([^}]+))?\}/g,
    (_, name: string, slot: string, value?: string) => {
      const format = formats[Number(slot)]!;
      if (value !== undefined)
        return `${wordOf(Number(value), format)} /* ${value} as ${formatName(format)} */`;
      return name === 'q' ? formatName(format) : String(format.fraction);
    },
  );
  // What goes into a place of its own format needs no step.
  return fractions.replaceAll(/\bmoved\((-?[\w>[\]-]+), (-?\d+), \2\)/g, '$1');
}
