/** Colour for a stream: obeys NO_COLOR, TERM=dumb and whether it is a terminal. Never the only carrier. */
import type { WriteStream } from 'node:tty';
import { styleText } from 'node:util';

export type Style = 'good' | 'bad' | 'open' | 'faint' | 'strong';
export type Paint = (style: Style, text: string) => string;

const formats = {
  good: 'cyan',
  bad: ['magenta', 'bold'],
  open: 'yellow',
  faint: 'gray',
  strong: 'bold',
} as const;

export const plain: Paint = (_style, text) => text;

export function paintFor(stream: Pick<WriteStream, 'isTTY'> & NodeJS.WritableStream, color: boolean): Paint {
  const { NO_COLOR, TERM } = process.env;
  const wanted =
    color && stream.isTTY === true && (NO_COLOR === undefined || NO_COLOR === '') && TERM !== 'dumb';
  if (!wanted) return plain;
  return (style, text) => styleText([...[formats[style]].flat()], text);
}
