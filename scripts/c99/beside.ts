/** What stands in C beside a translated law. */
import type ts from 'typescript';
import { refused } from './kinds.ts';

/** `Math.round` for doubles: the nearest whole number, halves upward, -0 where it comes from below; exact, and no library. */
export const nearestWhole = `/** The nearest whole number, halves upward; the sign of a zero is that of x. */
static double nearestWhole(double x) {
  /* From 2 to the power of 52 on every double is whole; what is no number stays so. */
  if (!(x > -4503599627370496.0 && x < 4503599627370496.0) || x == 0.0) {
    return x;
  }
  double down = (double)(int64_t)x;
  if (down > x) {
    down -= 1.0;
  }
  const double whole = x - down >= 0.5 ? down + 1.0 : down;
  return whole == 0.0 && x < 0.0 ? -0.0 : whole;
}
`;

/** Words that C keeps for itself. */
const reservedWords: readonly string[] = [
  ...['auto', 'break', 'case', 'char', 'const', 'continue', 'default', 'do', 'double', 'else', 'enum'],
  ...['extern', 'float', 'for', 'goto', 'if', 'inline', 'int', 'long', 'register', 'restrict', 'return'],
  ...['short', 'signed', 'sizeof', 'static', 'struct', 'switch', 'typedef', 'union', 'unsigned', 'void'],
  ...['volatile', 'while', 'bool', 'true', 'false'],
];

/** No declaration of a law may have such a name. */
export function refuseWord(of: ts.Node, name: string): void {
  if (reservedWords.includes(name)) throw refused(of, `${name} is a word of C`);
}
