/**
 * The angle of the point (x, y), in (−π, π], with the same bits everywhere; Math.atan2 differs in the last bit from
 * Node 20 to today's Chromium, + − × ÷ √ do not.
 *
 * The tangent of the smaller angle to an axis is halved in angle twice, t ↦ t/(1 + √(1 + t²)), then the power series to
 * where its next term is below rounding. Error at most 1e-15, two units in the last place of π.
 */
export function arcTangent(y: number, x: number): number {
  const [up, along] = [Math.abs(y), Math.abs(x)];
  if (up === 0 && along === 0) return 0;
  const within = up <= along ? small(up / along) : Math.PI / 2 - small(along / up);
  const side = x < 0 ? Math.PI - within : within;
  return y < 0 ? -side : side;
}

/** arctan t for 0 ≤ t ≤ 1. */
function small(t: number): number {
  const half = t / (1 + Math.sqrt(1 + t * t));
  const quarter = half / (1 + Math.sqrt(1 + half * half));
  const square = quarter * quarter;
  let sum = 0;
  for (let n = 25; n >= 1; n -= 2) sum = 1 / n - square * sum;
  return 4 * quarter * sum;
}
