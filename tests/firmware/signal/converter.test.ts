import { describe, expect, it } from 'vitest';
import { Converter } from '../../../src/firmware/signal/converter.ts';

describe('Converter', () => {
  it.each([
    // 12 bits over 64 V: 15.625 mV a step.
    ['the nearest step', 12, 64, 50.005, 50],
    ['the step above from half a step on', 12, 64, 50.0079, 50.015625],
    ['0 below 0', 12, 64, -3, 0],
    ['its last step beyond its range', 12, 64, 70, 64 - 0.015625],
    ['anything exactly with 0 bits', 0, 0, -3.17, -3.17],
  ])('shows %s', (_, bits, range, value, shown) => {
    expect(new Converter(bits, range).read(value)).toBe(shown);
  });
});
