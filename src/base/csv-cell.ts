/** Cells of CSV files (RFC 4180) that a spreadsheet does not take for formulas. */

/** What a spreadsheet begins a formula with; a tab or line end before it does not keep it from doing so. */
const formula = /^[\t\r\n ]*[=+\-@]/;

/** A text that begins like a formula gets an apostrophe in front: shown as it is, and reckoned by nobody. */
export function guarded(text: string): string {
  return formula.test(text) ? `'${text}` : text;
}

/** A text as a cell: guarded, and in quotes where it holds what separates cells. */
export function textCell(text: string): string {
  const safe = guarded(text);
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A number in the fewest digits that read back to the same bits, the sign of zero included. */
export function numberCell(value: number): string {
  return Object.is(value, -0) ? '-0' : String(value);
}

/** Digits from which on a decimal tells neighbours of single precision apart, and that are always enough. */
const [fewest, enough] = [6, 9];

/** A number of single precision in the fewest digits that read back to the same bits of it: 50.08449, not 50.08449172973633. */
export function singleCell(value: number): string {
  // Digits of −0 have no sign.
  if (value === 0) return numberCell(value);
  for (let digits = fewest; digits < enough; digits++) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return numberCell(short);
  }
  return numberCell(Number(value.toPrecision(enough)));
}
