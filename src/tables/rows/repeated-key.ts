/** Strings of a JSON text, each with the colon that makes it a key. */
const strings = /"(?:[^"\\]|\\.)*"(\s*:)?/g;

/**
 * A key that stands twice in one object of a JSON text, of which a parser keeps the last in silence; null where none
 * does. `value` is what the text was parsed to: it has each key of an object once.
 */
export function repeatedKey(text: string, value: unknown): string | null {
  const counts = new Map<string, number>();
  for (const [token, colon] of text.matchAll(strings)) {
    if (colon === undefined) continue;
    const key: string = JSON.parse(token.slice(0, token.length - colon.length));
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  takeOff(value, counts);
  for (const [key, count] of counts) if (count > 0) return key;
  return null;
}

function takeOff(value: unknown, counts: Map<string, number>): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, one] of Object.entries(value)) {
    if (!Array.isArray(value)) counts.set(key, (counts.get(key) ?? 0) - 1);
    takeOff(one, counts);
  }
}
