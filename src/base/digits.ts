/** A number for people in so many significant digits, without a power of ten: 0.0123, 1.00, 12 300. */
export function digits(x: number, significant = 3): string {
  const text = x.toPrecision(significant);
  return text.includes('e') ? String(Number(text)) : text;
}
