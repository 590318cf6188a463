/** What a hand, an editor or a broken disk makes of a text of keys and values. Each edit is one such mishap. */
import type { Draw } from '../random-cabinets/draw.ts';
import { intruders } from './intruders.ts';

type Edit = (text: string, draw: Draw) => string;

/** Values that might have been meant. */
const slips: readonly Edit[] = [
  (text, draw) => scaled(text, draw, draw.acrossDecades(0.3, 3)),
  (text, draw) => scaled(text, draw, draw.pick([0, 1e-3, 0.1, 10, 1e3, -1])),
];

/** Edits of bytes, of lines, of values and of the structure. */
const edits: readonly Edit[] = [
  (text, draw) => text.slice(0, draw.whole(0, text.length)),
  (text, draw) => put(text, draw.whole(0, text.length), String.fromCodePoint(draw.whole(0, 300))),
  (text, draw) => without(text, draw.whole(0, text.length), draw.whole(1, 4)),
  (text, draw) => put(text, draw.whole(0, text.length), draw.pick(':\n\t"\'{}[],&*#|>-?!%@`'.split(''))),
  (text, draw) => onLines(text, (lines) => lines.splice(draw.whole(0, lines.length - 1), draw.whole(1, 3))),
  (text, draw) =>
    onLines(text, (lines) => lines.splice(draw.whole(0, lines.length), 0, draw.pick(lines.slice()))),
  (text, draw) =>
    onLines(text, (lines) => {
      const [a, b] = [draw.whole(0, lines.length - 1), draw.whole(0, lines.length - 1)];
      [lines[a], lines[b]] = [lines[b]!, lines[a]!];
    }),
  (text, draw) => onLine(text, draw, (line) => `${' '.repeat(draw.whole(1, 4))}${line}`),
  (text, draw) => onLine(text, draw, (line) => line.replace(/^ +/, '')),
  (text, draw) => onLine(text, draw, (line) => line.replace(/:.*$/, `: ${draw.pick(intruders)}`)),
  (text, draw) => onLine(text, draw, (line) => line.replace(/[^\s:]+(?=:)/, draw.pick(intruders))),
  (text, draw) => replaced(text, draw, /-?\d+(?:\.\d+)?/g, draw.pick(intruders)),
  (text, draw) => replaced(text, draw, /-?\d+(?:\.\d+)?/g, `${draw.pick(['', '-'])}${number(draw)}`),
  (text, draw) => replaced(text, draw, /(?<=\d )[µa-zA-Z%Ω/]+/g, draw.pick(units)),
  (text, draw) => replaced(text, draw, /[\w.-]+(?=:)/g, draw.pick(text.match(/[\w.-]+(?=:)/g) ?? ['x'])),
  (text, draw) => replaced(text, draw, /(?<=: )[\w.-]+/g, draw.pick(text.match(/(?<=: )[\w.-]+/g) ?? ['x'])),
];

const units = 'V mV A kA W kW MW J F mF µF H nH Ω mΩ µΩ s ms µs Hz kHz % K °C V/s kW/s A/V min h x'.split(
  ' ',
);

/** A text after one to `most` edits; half of them change values alone. */
export function edited(text: string, draw: Draw, most: number): string {
  const kinds = draw.chance(0.5) ? slips : edits;
  let now = text;
  for (let left = draw.whole(1, most); left > 0; left--) now = draw.pick(kinds)(now, draw);
  return now;
}

/** One number of the text times `factor`, with four digits. */
function scaled(text: string, draw: Draw, factor: number): string {
  const found = [...text.matchAll(/(?<![\w.-])\d+(?:\.\d+)?(?=\s)/g)];
  if (found.length === 0) return text;
  const { index, 0: was } = draw.pick(found);
  return put(without(text, index, was.length), index, `${Number((Number(was) * factor).toPrecision(4))}`);
}

function number(draw: Draw): string {
  return draw.chance(0.5)
    ? `${draw.acrossDecades(1e-3, 1e4).toPrecision(3)}`
    : `${draw.between(0, 10).toFixed(3)}e${draw.whole(-320, 320)}`;
}

function put(text: string, at: number, what: string): string {
  return text.slice(0, at) + what + text.slice(at);
}

function without(text: string, at: number, count: number): string {
  return text.slice(0, at) + text.slice(at + count);
}

function onLines(text: string, change: (lines: string[]) => unknown): string {
  const lines = text.split('\n');
  change(lines);
  return lines.join('\n');
}

function onLine(text: string, draw: Draw, change: (line: string) => string): string {
  return onLines(text, (lines) => {
    const at = draw.whole(0, lines.length - 1);
    lines[at] = change(lines[at]!);
  });
}

/** One of the places that `pattern` finds, written over. */
function replaced(text: string, draw: Draw, pattern: RegExp, by: string): string {
  const found = [...text.matchAll(pattern)];
  if (found.length === 0) return text;
  const { index, 0: was } = draw.pick(found);
  return put(without(text, index, was.length), index, by);
}
