/** What JSON can carry: a finite number, or null where there is none. */
export function finite(x: number | null | undefined): number | null {
  return x === null || x === undefined || !Number.isFinite(x) ? null : x;
}
