/** What several limits ask of one run is worked out once, and goes with what it was worked out of. */

/** `work`, once for each object that it is asked of, for as long as somebody holds that. */
export function once<K extends object, T>(work: (of: K) => T): (of: K) => T {
  const known = new WeakMap<K, { readonly made: T }>();
  return (of) => {
    const before = known.get(of);
    if (before !== undefined) return before.made;
    const made = work(of);
    known.set(of, { made });
    return made;
  };
}
