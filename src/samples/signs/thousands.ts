/** Ratios that a wrong prefix of a unit makes: a thousand, a million, and what the load itself adds to that. */
const within = 3.2;

export function isThousands(ratio: number): boolean {
  return [1e3, 1e6].some((prefix) => ratio > prefix / within && ratio < prefix * within);
}
