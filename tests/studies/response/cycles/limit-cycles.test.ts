/** What is said of a limit cycle, and when nothing is: a loop of integrator and delay in closed form, no cabinet. */
import { describe, expect, it } from 'vitest';
import { stairs } from '../../../../src/linear/cycles/describing.ts';
import type { DirectedLoop } from '../../../../src/linear/cycles/opened.ts';
import { cycleCells } from '../../../../src/studies/response/cycles/cycle-words.ts';
import { directionsOf } from '../../../../src/studies/response/cycles/directions.ts';
import type { Hunter } from '../../../../src/studies/response/cycles/hunter.ts';
import { type LimitCycle, predictionOf } from '../../../../src/studies/response/cycles/limit-cycles.ts';

const [K, tau_s, q] = [20, 0.01, 2];

/** K e^(−τs)/s swings at 1/(4τ) under a relay, with the amplitude 4Kqτ/π² of its describing function (Gelb and Vander Velde). */
const loop = (across = 0): DirectedLoop => ({
  period_s: null,
  over_Hz: Array.from({ length: 60 }, (_, k) => 1 * 60 ** (k / 59)),
  standing: -1,
  at(f) {
    const w = 2 * Math.PI * f;
    // Harmonics are filtered, so that they are not what speaks against a prediction.
    const size = (f > 1.2 / (4 * tau_s) ? 0.1 : 1) * (K / w);
    return { re: -size * Math.sin(w * tau_s), im: -size * Math.cos(w * tau_s) };
  },
  growth: (gain) => gain * K - Math.PI / (2 * tau_s),
  across_ratio: () => across,
});

const hunter = (more: Partial<Hunter> = {}): Hunter => ({
  element: 'trim quantum',
  given: 'trim',
  unit: 'V',
  size: q,
  direction: { words: 'S1 against S2', weights: [1, -1] },
  acts: stairs(q),
  loop: loop(),
  rests: [q / 2, q / 2],
  shelfCurrent_A: () => 10,
  silent: null,
  ...more,
});

describe('a prediction of an element', () => {
  it('is given midway between two codes', () => {
    const { kind, cycle } = predictionOf(hunter());
    expect(kind).toBe('cycle');
    expect(cycle!.frequency_Hz).toBeCloseTo(1 / (4 * tau_s), 6);
    expect(cycle!.amplitude).toBeCloseTo((4 * K * q * tau_s) / Math.PI ** 2, 5);
  });

  it.each([
    ['as far from midway as 0.15 quanta', { rests: [0.64 * q, 0.64 * q] }, null],
    ['nearer to a code', { rests: [0.66 * q, 0.66 * q] }, 'it rests near a code'],
    ['nearer to a code from below', { rests: [-0.66 * q, -0.66 * q] }, 'it rests near a code'],
    ['shelves 0.09 quanta apart', { rests: [0.5 * q, 0.59 * q] }, null],
    ['shelves further apart', { rests: [0.5 * q, 0.61 * q] }, 'the shelves rest at different places'],
    ['shelves a whole quantum apart', { rests: [0.5 * q, 1.5 * q] }, null],
    ['a tenth across its direction', { loop: loop(0.1) }, null],
    [
      'more across it',
      { loop: loop(0.11) },
      'the shelves answer unlike each other, 11 % across this direction',
    ],
    ['what is said before any loop is looked at', { silent: 'random times' }, 'random times'],
  ] as const)('%s', (_, more, why) => {
    const found = predictionOf(hunter(more as Partial<Hunter>));
    if (why === null) expect(found.why).toBeNull();
    else expect(found).toMatchObject({ kind: 'none', cycle: null, why: expect.stringContaining(why) });
  });
});

describe('in words', () => {
  const cycle: LimitCycle = {
    element: 'trim quantum',
    direction: 'S1 against S2',
    size: 1e-3,
    unit: 'V',
    kind: 'cycle',
    why: null,
    frequency_Hz: 17.66,
    given: 'trim',
    amplitude: 5.703e-4,
    shelf_current_A: 0.1234,
  };
  it.each([
    [{}, 'hunts: trim ±570 µV at 17.7 Hz, ±123 mA of each shelf'],
    [{ shelf_current_A: null }, 'hunts: trim ±570 µV at 17.7 Hz'],
    [
      { kind: 'edge' },
      'smaller swings die away, larger ones grow: trim ±570 µV at 17.7 Hz, ±123 mA of each shelf',
    ],
    [
      { kind: 'none', why: 'no cycle balances', frequency_Hz: null, amplitude: null, shelf_current_A: null },
      'no prediction: no cycle balances',
    ],
  ] as const)('%j', (more, words) => {
    expect(cycleCells({ ...cycle, ...more })).toEqual(['trim quantum', 'S1 against S2', '1 mV', words]);
  });

  it('of shelves: one alone where the loop acts on the sum, all together, and the first two against each other', () => {
    expect(directionsOf(['S1'], false)).toEqual([]);
    expect(directionsOf(['S1'], true)).toEqual([{ words: 'S1', weights: [1] }]);
    expect(directionsOf(['S1', 'S2', 'S3'], true)).toEqual([
      { words: 'all 3 shelves together', weights: [1, 1, 1] },
      { words: 'S1 against S2', weights: [1, -1, 0] },
    ]);
    expect(directionsOf(['S1', 'S2'], false)).toHaveLength(1);
  });
});
