/** The first `most` of some names, then how many more there are. */
export function namedFew(names: readonly string[], most: number, between = ', '): string {
  const rest = names.length - most;
  return rest <= 0 ? names.join(between) : `${names.slice(0, most).join(between)} and ${rest} more`;
}
