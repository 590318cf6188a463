/** Where two values of JSON differ. */

/** One place where what was kept and what came again differ, both as text. */
export interface Difference {
  readonly where: string;
  readonly kept: string;
  readonly again: string;
}

/** Told of every differing place, in the order of the kept value. */
export type Tell = (difference: Difference) => void;

const longestShown = 120;

/** Walks both values; a place that only one of them has is `nothing` in the other. */
export function jsonDifferences(kept: unknown, again: unknown, tell: Tell, where = ''): void {
  if (Array.isArray(kept) && Array.isArray(again)) {
    if (kept.length !== again.length)
      tell({ where: below(where, 'length'), kept: String(kept.length), again: String(again.length) });
    for (let k = 0; k < Math.min(kept.length, again.length); k += 1)
      jsonDifferences(kept[k], again[k], tell, below(where, nameOf(kept[k]) ?? String(k + 1)));
    return;
  }
  if (isObject(kept) && isObject(again)) {
    for (const key of new Set([...Object.keys(kept), ...Object.keys(again)]))
      jsonDifferences(own(kept, key), own(again, key), tell, below(where, key));
    return;
  }
  if (!Object.is(kept, again)) tell({ where, kept: shown(kept), again: shown(again) });
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function own(value: Readonly<Record<string, unknown>>, key: string): unknown {
  return Object.hasOwn(value, key) ? value[key] : undefined;
}

/** Findings, channels and inputs are known by name; other items of a list by their place, from 1. */
function nameOf(item: unknown): string | null {
  if (!isObject(item)) return null;
  const name = item['id'] ?? item['channel'] ?? item['path'] ?? item['name'];
  return typeof name === 'string' ? name : null;
}

function below(where: string, key: string): string {
  return where === '' ? key : `${where}.${key}`;
}

function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  // A number that JSON cannot write stands here as itself: as text of JSON it would be null.
  const text = typeof value === 'number' ? String(value) : JSON.stringify(value);
  return text.length > longestShown ? `${text.slice(0, longestShown - 1)}…` : text;
}
