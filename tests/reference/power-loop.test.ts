/**
 * The shelves' slow power loop: H(s) = (ω_b s + ω_b²/4)/(s² + ω_b s + ω_b²/4), from the load on the bulk to the
 * power taken from AC, in dB. Derived by hand from the loop's equations (no outside source); common practice asks
 * for 10 to 20 Hz. The closed loop from the bulk's reference to the bulk is the same H.
 *
 * Tolerance 0.5 dB: the input power's lag of 0.1 ms and the bulk's constant-power load are left out of H.
 */
import { describe, it } from 'vitest';
import { Curves } from '../../src/linear/curves.ts';
import { decibels } from '../../src/linear/decibels.ts';
import { restAt } from '../../src/linear/rest.ts';
import { placesOf } from '../../src/studies/response/places.ts';
import { shipped } from '../linear/scenario.ts';
import { published } from './published.ts';

const frequencies = [0.5, 1, 2, 5, 10, 20, 50, 100, 300];
const rows: readonly (readonly [number, readonly number[]])[] = [
  [5, [0.3, 0.9, 1.2, -1.7, -6.5, -12.2, -20, -26, -36]],
  [10, [0.1, 0.3, 0.9, 1.0, -1.7, -6.5, -14, -20, -30]],
  [20, [0, 0.1, 0.3, 1.1, 1.0, -1.7, -8.3, -14, -24]],
];

const gains = published({
  what: 'slow power loop on the whole cabinet, load to AC',
  source: 'second-order loop, by hand',
  unit: 'dB',
  absolute: true,
});

describe('the power loop', () => {
  it.each(rows)('of %d Hz passes the load on as it should', (loop_Hz, expected) => {
    const places = placesOf(
      restAt(shipped('single-step', `shelves.power_loop=${loop_Hz} Hz`), 200e3),
      [],
      null,
    );
    const curves = new Curves(places.system, false);
    frequencies.forEach((f, k) => {
      const gain = decibels(curves.at(f, [places.bulkReference])[0]!.read(places.bulk));
      gains({
        which: `loop of ${loop_Hz} Hz at ${f} Hz`,
        expected: expected[k]!,
        found: gain,
        tolerance: 0.5,
      });
    });
  });
});
