/** Triangle between −1 and 1 that begins at 0 and rises: a slow swing without any function but + − × ÷. */
export function triangle(turns: number): number {
  const rest = turns - Math.floor(turns);
  return rest < 0.25 ? 4 * rest : rest < 0.75 ? 2 - 4 * rest : 4 * rest - 4;
}
