/**
 * Current of a pack for power p into the bus [A], positive when it gives: p/η of the pack when it gives, p η when it takes, and
 * i = 2 p_p/(U + √(U² − 4 R p_p)), the upper root; without one i = 2 p_p/U. U: voltage behind R.
 */
export function packCurrent_A(p: number, efficiency: number, U: number, R: number): number {
  const pack = p > 0 ? p / efficiency : p * efficiency;
  const root = U * U - 4 * R * pack;
  return (2 * pack) / (U + (root > 0 ? Math.sqrt(root) : 0));
}
