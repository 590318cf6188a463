/** Whether events come as chance has them: what recurs evenly is the load's own, or a clock's. */

/** Standard deviation of the waits over their mean, 1 by chance and 0 for a clock. */
const least = 0.4;

export function areIrregular(places: readonly number[]): boolean {
  const waits = places.slice(1).map((place, k) => place - places[k]!);
  if (waits.length < 2) return true;
  const mean = waits.reduce((sum, wait) => sum + wait, 0) / waits.length;
  const variance = waits.reduce((sum, wait) => sum + (wait - mean) ** 2, 0) / waits.length;
  return Math.sqrt(variance) > least * mean;
}
