import { describe, expect, it } from 'vitest';
import { chargeRoom, type Draw, divide } from '../../../src/firmware/battery/charge-budget.ts';

const calm: Draw = { charge_W: 5e3, rated_W: 288e3, output_W: 200e3, feeders: [] };

describe('chargeRoom', () => {
  it('is the budget where nothing else holds', () => {
    expect(chargeRoom(calm, 15e3)).toEqual({ room_W: 15e3, by: "the cabinet's budget" });
  });

  it('is what the shelves have left beside the load, the charge of now counted once', () => {
    // The output of 285 kW holds 5 kW of charge: the load is 280 kW of 288 kW.
    expect(chargeRoom({ ...calm, output_W: 285e3 }, 15e3)).toEqual({
      room_W: 8e3,
      by: "the shelves' rating",
    });
  });

  it('is what the tighter feeder has left over its part of the running shelves', () => {
    const feeders = [
      { allowed_W: 130e3, drawn_W: 128e3, rated_W: 144e3 },
      { allowed_W: 130e3, drawn_W: 100e3, rated_W: 144e3 },
    ];
    // 2 kW free where half of what is added falls: 4 kW more than the 5 kW of now.
    expect(chargeRoom({ ...calm, feeders }, 15e3)).toEqual({ room_W: 9e3, by: 'the feeders' });
  });

  it('is nothing, not less, where a feeder is over its share; a feeder without shelves does not count', () => {
    const over = [{ allowed_W: 100e3, drawn_W: 120e3, rated_W: 288e3 }];
    expect(chargeRoom({ ...calm, feeders: over }, 15e3).room_W).toBe(0);
    const dark = [{ allowed_W: 0, drawn_W: 0, rated_W: 0 }];
    expect(chargeRoom({ ...calm, feeders: dark }, 15e3).room_W).toBe(15e3);
  });
});

describe('divide', () => {
  it('gives all what they ask where there is enough', () => {
    expect(divide(10, [2, 3, 0])).toEqual([2, 3, 0]);
  });

  it('gives those who ask for less all of it, and the others the same', () => {
    expect(divide(9, [5, 1, 8])).toEqual([4, 1, 4]);
  });
});
