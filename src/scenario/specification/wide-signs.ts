/**
 * Signs and digits of double width, as East Asian keyboards write them beside letters: `＜＝ ５３ Ｖ`. They look like those
 * that are read, and would be taken for none of them or for another; so they are named, and never changed in silence.
 */
import type { Unread } from './bound.ts';

/** Unicode's full-width forms of what a keyboard has, U+FF01 to U+FF5E, and its full-width blank. */
const wide = /[\uff01-\uff5e\u3000]/g;

/** What is wrong with a cell that holds such signs; null where it holds none. */
export function wideSigns(text: string): Unread | null {
  const found = [...new Set(text.match(wide) ?? [])];
  if (found.length === 0) return null;
  const named = found.map((sign) => `${sign} (U+${sign.codePointAt(0)!.toString(16).toUpperCase()})`);
  const narrow = text.replace(wide, (sign) =>
    sign === '\u3000' ? ' ' : String.fromCodePoint(sign.codePointAt(0)! - 0xfee0),
  );
  return [
    `${text}, with ${named.join(', ')} of double width`,
    'signs, digits and letters of single width',
    `write ${narrow}`,
  ];
}
