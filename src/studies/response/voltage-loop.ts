/**
 * Loop gains of the shelves' voltage loops, broken where the voltage is sensed, droop and firmware commands as
 * they stand. `together`: all loops broken and driven alike, what a designer calls the cabinet's loop gain. Of
 * one shelf alone, the others closed, the one with the least clearance from −1 is shown.
 */
import { type Complex, magnitude } from '../../linear/complex.ts';
import { inverseOf } from '../../linear/complex-matrix.ts';
import { Curves, loopGain } from '../../linear/curves.ts';
import type { Places } from './places.ts';

interface VoltageLoop {
  readonly name: string;
  readonly about: string;
  readonly values: readonly Complex[];
}

export function voltageLoops(places: Places, frequencies: readonly number[]): VoltageLoop[] {
  const { sensed, setPoint } = places;
  const n = sensed.length;
  if (n === 0) return [];
  const curves = new Curves(places.system, false);
  const together: Complex[] = [];
  const single = sensed.map((): Complex[] => []);
  for (const f of frequencies) {
    const motions = curves.at(f, setPoint);
    // H[i][k]: what loop i senses per volt put into loop k. L = −H (1 + H)⁻¹.
    const H = sensed.map((reading) => motions.map((motion) => motion.read(reading)));
    const closed = inverseOf(
      H.map((row, i) => row.map((h, k) => ({ re: h.re + (i === k ? 1 : 0), im: h.im }))),
    );
    let [re, im] = [0, 0];
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < n; k++) {
        for (let m = 0; m < n; m++) {
          const a = H[i]![m]!;
          const b = closed[m]![k]!;
          re -= (a.re * b.re - a.im * b.im) / n;
          im -= (a.re * b.im + a.im * b.re) / n;
        }
      }
    }
    together.push({ re, im });
    for (let k = 0; k < n; k++) single[k]!.push(loopGain(H[k]![k]!));
  }
  const clearance = single.map((loop) => Math.min(...loop.map((L) => magnitude({ re: 1 + L.re, im: L.im }))));
  const worst = clearance.indexOf(Math.min(...clearance));
  const name = setPoint[worst]!.name.replace('set point of ', '');
  return [
    { name: 'voltage loops together', about: 'all opened at once and driven alike', values: together },
    {
      name: `voltage loop of ${name}`,
      about: 'the others closed; of all shelves the one nearest to −1',
      values: single[worst]!,
    },
  ];
}
