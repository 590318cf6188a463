/** JSON that loses nothing: numbers that JSON cannot write are an error, or spelled out where they may occur. */

/** Text of a value in which every number must be finite. Throws RangeError (a bug upstream) where one is not. */
export function strictJson(name: string, value: unknown): string {
  return `${JSON.stringify(
    value,
    (key, v: unknown) => {
      if (typeof v === 'number' && !Number.isFinite(v)) throw new RangeError(`${name}: ${key} is ${v}`);
      return v;
    },
    1,
  )}\n`;
}

/** Readings of a run that broke down may hold NaN or infinities; those are written as `{"number": "NaN"}`. */
export function looseJson(value: unknown): string {
  return `${JSON.stringify(
    value,
    (_key, v: unknown) => (typeof v === 'number' && !Number.isFinite(v) ? { number: String(v) } : v),
    1,
  )}\n`;
}

/** Reads what `looseJson` wrote. */
export function parseLoose(text: string): unknown {
  return JSON.parse(text, (_key, v: unknown) => {
    if (typeof v === 'object' && v !== null && 'number' in v && Object.keys(v).length === 1)
      return Number(v.number);
    return v;
  });
}
