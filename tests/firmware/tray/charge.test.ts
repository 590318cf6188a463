/**
 * What a tray may hold, give and take, by hand from the values of the reference tray: 162.5 F at 43.2 V (1 + 0.1 (v/V_r − 1)),
 * 2.4 mΩ, 28.8 to 43.2 V, 20 kW, 420 A on the bus, 760 A in the bank, 97.5 % and 60 W of standing loss.
 */
import { describe, expect, it } from 'vitest';
import { chargeLawOf } from '../../../src/firmware/tray/charge-keeper.ts';
import { scheduledEnergy_J } from '../../../src/firmware/tray/charge-law.ts';
import { isStrained, mostIn_W, mostOut_W, trayLimit } from '../../../src/firmware/tray/tray-reach.ts';
import { assemble } from '../../../src/network/network.ts';
import { type Changes, shippedWith } from '../../engine/runs.ts';

const traysWith = (changes: Changes) => assemble(shippedWith('idle', changes)).trays.ratings;
const reference = traysWith({});
/** Bank limit and resistance that hold it before its converter does. */
const weakBank = traysWith({ 'trays.capacitor_current_limit': '400 A' });
const oldBank = traysWith({ 'trays.esr': '20 mohm' });

describe('scheduledEnergy_J()', () => {
  const { smoothing } = shippedWith('idle').firmware;
  const scheduled_J = (w: number) => scheduledEnergy_J(chargeLawOf(smoothing, 10), reference, 0, w, 10);
  // E(v) = 162.5 v² (0.45 + 0.1 v/129.6): 63648 J at 28.8 V, 146577.6 J at 43.2 V.
  const low_J = 63_648;
  const window_J = 82_929.6;

  it.each([
    ['the middle of the window at the middle of the scheduled load', 135.6e3, low_J + window_J / 2],
    ['τ_s/N less for every watt more', 235.6e3, low_J + window_J / 2 - 0.28 * 100e3],
    ['the lower end at a load far above', 400e3, low_J + 0.05 * window_J],
    ['the upper end at no load', 0, low_J + 0.95 * window_J],
  ])('is %s', (_, w, expected_J) => {
    expect(scheduled_J(w)).toBeCloseTo(expected_J, 6);
  });
});

describe('mostOut_W() and mostIn_W()', () => {
  it('are the power of the converter where nothing else holds', () => {
    expect([mostOut_W(reference, 0, 36, 50), mostIn_W(reference, 0, 36, 50)]).toEqual([20e3, 20e3]);
  });

  it('are the bus current times the bus voltage below 47.6 V, less below the fold-back at 30 V', () => {
    expect(mostOut_W(reference, 0, 36, 40)).toBeCloseTo(420 * 40, 9);
    expect(mostIn_W(reference, 0, 36, 40)).toBeCloseTo(420 * 40, 9);
    expect(mostOut_W(reference, 0, 36, 15)).toBeCloseTo(210 * 15, 9);
  });

  it('are the current of the bank through its resistance, standing loss and efficiency', () => {
    // 400 A at 36 V: 14400 W, of which 384 W stay in the resistance.
    expect(mostOut_W(weakBank, 0, 36, 50)).toBeCloseTo((14_400 - 384 - 60) * 0.975, 6);
    expect(mostIn_W(weakBank, 0, 36, 50)).toBeCloseTo((14_400 + 384 + 60) / 0.975, 6);
  });

  it('stay at 0.8 of the current of greatest power in a bank of high resistance', () => {
    // 0.8 × 36 V/40 mΩ is 720 A: 25920 W less 10368 W.
    expect([isStrained(oldBank, 0, 36), isStrained(oldBank, 0, 40), isStrained(reference, 0, 36)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(mostOut_W(oldBank, 0, 36, 50)).toBeCloseTo((15_552 - 60) * 0.975, 6);
  });

  it('fall straight to 0 over the last 5 % of the window, out at its lower end and in at its upper', () => {
    const out_W = [28.8, 28.98, 29.16, 29.7, 43.2].map((u) => mostOut_W(reference, 0, u, 50));
    const in_W = [43.2, 43.02, 42.84, 42.3, 28.8].map((u) => mostIn_W(reference, 0, u, 50));
    const expected_W = [0, 5e3, 10e3, 20e3, 20e3].map((W) => expect.closeTo(W, 6));
    expect([out_W, in_W]).toEqual([expected_W, expected_W]);
    expect([mostOut_W(reference, 0, 28, 50), mostIn_W(reference, 0, 44, 50)]).toEqual([0, 0]);
  });
});

describe('trayLimit()', () => {
  it.each([
    ['power', reference, 36, 50, true],
    ['power', reference, 36, 50, false],
    ['current', reference, 36, 40, true],
    ['current', weakBank, 36, 50, true],
    ['current', weakBank, 36, 50, false],
    ['bank', oldBank, 36, 50, true],
    ['current', oldBank, 36, 30, true],
    ['window', reference, 29, 50, true],
    ['power', reference, 29, 50, false],
    ['window', reference, 43, 50, false],
    ['power', reference, 43, 50, true],
  ] as const)('is %s', (limit, trays, u, v, gives) => {
    expect(trayLimit(trays, 0, u, v, gives)).toBe(limit);
  });
});
