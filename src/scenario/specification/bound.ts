/**
 * The bound of a requirement as people write it, `<= 53 V` or `53 V max`, to its side, number and unit. What can be read
 * in two ways is refused: a requirement that is misread may be called met.
 */

export interface Bound {
  readonly side: 'upper' | 'lower';
  /** In plain digits with a point. */
  readonly number: string;
  readonly unit: string;
}

/** What was found, expected and mends it, in the words of a problem. */
export type Unread = readonly [found: string, expected: string, mend: string];

const upper = /^(?:<=|=<|≤|at most\b|(?:not|no) more than\b|not above\b|up to\b|max(?:imum|\.|\b))/i;
const lower = /^(?:>=|=>|≥|at least\b|(?:not|no) less than\b|not below\b|min(?:imum|\.|\b))/i;
const strict = /^(?:<|>|less than\b|more than\b|below\b|above\b|under\b|over\b)/i;
const upperBehind = /(?:\bmax(?:imum|\.)?|\bor less)$/i;
const lowerBehind = /(?:\bmin(?:imum|\.)?|\bor more)$/i;
const numeric = /^[+-]?[\d.,'’_ ]*\d(?:[eE][+-]?\d+)?/;
const plain = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?$/;

const example = 'a side, a number and its unit, for example <= 53 V or min 48 V';

/**
 * `unitCell`: the unit where it has a cell of its own. `commaFile`: the table parts its cells by semicolons, as spreadsheets
 * do that write numbers with a comma, so that 80.000 may be eighty or eighty thousand.
 */
export function readBound(written: string, unitCell: string, commaFile: boolean): Bound | Unread {
  const text = plainText(written);
  if (text === '')
    return ['nothing', example, 'write the bound, or leave the metric empty: the row is then open'];
  if (/±|\+\/-|\.\.|…|[\d.]\s*(?:–|-|to)\s*[+-]?\d/.test(text))
    return [text, 'one bound', 'write a row for each side, each with a clause of its own'];
  const sided = sideOf(text);
  if (sided === null)
    return strict.test(text)
      ? [
          text,
          'a bound that may be reached: <= or >=',
          'write <= or >= with the last value that is still allowed: at the bound itself the two differ',
        ]
      : [text, `a side: ${example}`, 'write <= or max, >= or min before the number'];
  const { side, rest } = sided;
  const number = numeric.exec(rest)?.[0] ?? '';
  if (number === '') return [text, example, 'write the number in digits'];
  if (!plain.test(number))
    return [
      number,
      'digits with a point and nothing between them',
      'write 1250 or 0.5, without commas or blanks',
    ];
  if (commaFile && /^[+-]?[1-9]\d{0,2}\.\d{3}$/.test(number))
    return [
      `${number} in a table parted by semicolons`,
      'a number that reads in one way',
      `write ${Number(number)} or ${number.replace('.', '')}`,
    ];
  const inCell = rest.slice(number.length).trim();
  const own = plainText(unitCell);
  if (inCell !== '' && own !== '' && inCell !== own)
    return [`${inCell} beside the unit ${own}`, 'one unit', 'keep one of the two'];
  return { side, number: number.replace(/^\+/, ''), unit: inCell === '' ? own : inCell };
}

export function isUnread(read: Bound | Unread): read is Unread {
  return Array.isArray(read);
}

/** Minus signs and blanks of every kind as those of a keyboard. */
function plainText(text: string): string {
  return text
    .replaceAll('\u2212', '-')
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .trim();
}

function sideOf(text: string): { readonly side: Bound['side']; readonly rest: string } | null {
  for (const [side, before, behind] of [
    ['upper', upper, upperBehind],
    ['lower', lower, lowerBehind],
  ] as const) {
    const word = before.exec(text)?.[0];
    if (word !== undefined) return { side, rest: text.slice(word.length).trim() };
    const last = behind.exec(text)?.[0];
    const rest = last === undefined ? '' : text.slice(0, -last.length).trim();
    // `5 min` alone is a time: the word says a side only behind a number that has its unit.
    if (/\d\s*[^\d\s.]/.test(rest)) return { side, rest };
  }
  return null;
}
