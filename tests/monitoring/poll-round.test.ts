/** Time on a serial bus, against characters counted by hand (Modbus RTU as published, from memory). */
import { describe, expect, it } from 'vitest';
import { pollRound } from '../../src/scenario/derived/poll-round.ts';
import type { PortValues } from '../../src/scenario/parameters/port.ts';

const port: PortValues = {
  period_s: 1,
  first_s: 0,
  bit_rate_Hz: 19_200,
  registers_count: 60,
  answer_delay_s: 0.035,
  averaging_s: 0,
  most_of_a_kind_count: 8,
};

describe('a round of polls', () => {
  it('takes 140 characters for 60 registers at 19 200 bit/s, and the delay of the device', () => {
    // 3.5 + 8 + 3.5 + (5 + 120) = 140 characters of 11 bits.
    const round = pollRound(port, 8);
    expect(round.device_s).toBeCloseTo((140 * 11) / 19_200 + 0.035, 12);
    expect(round.asked_s).toBeCloseTo((11.5 * 11) / 19_200, 12);
    expect(round.round_s).toBeCloseTo(0.9217, 4);
  });

  it('has time for eight such devices in a second (common practice, no source), and for others by their registers', () => {
    expect(pollRound(port, 1).most_in_period_count).toBe(8);
    expect(pollRound({ ...port, registers_count: 20, answer_delay_s: 0 }, 1).most_in_period_count).toBe(29);
    expect(pollRound({ ...port, bit_rate_Hz: 9600 }, 1).most_in_period_count).toBe(5);
  });

  it('keeps 1.75 ms of silence on a faster bus, and asks twice for more than 125 registers', () => {
    const fast = pollRound({ ...port, bit_rate_Hz: 115_200, registers_count: 200 }, 1);
    expect(fast.requests_count).toBe(2);
    expect(fast.device_s).toBeCloseTo(
      2 * ((13 * 11) / 115_200 + 2 * 1.75e-3 + 0.035) + (400 * 11) / 115_200,
      12,
    );
  });
});
