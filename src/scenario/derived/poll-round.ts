/**
 * How long a round of polls takes on a serial bus, from the framing of Modbus RTU (from memory; registers in one request,
 * characters of a frame and silence as that protocol has them). Time on the wire alone: no retries, no other traffic.
 *
 *   device = n (13 c + 2 s + t_a) + 2 r c,  c = 11/b,  s = 3.5 c, 1.75 ms above 19 200 bit/s,  n = ceil(r/125)
 */
import type { PortValues } from '../parameters/port.ts';

/** Start, eight data, parity, stop. */
const bitsPerCharacter = 11;

/** Address, function, first register, count of registers, check sum. */
const requestCharacters = 8;

/** Address, function, count of bytes, check sum; two for each register come between. */
const answerCharacters = 5;

const mostRegisters = 125;
const silenceCharacters = 3.5;
const fastBus_per_s = 19_200;
const fastSilence_s = 1.75e-3;

export interface PollRound {
  /** Requests that one device's registers take. */
  readonly requests_count: number;
  /** From a device's turn to the next one's [s]. */
  readonly device_s: number;
  /** From a device's turn to the end of its first request, when it takes the reading [s]. */
  readonly asked_s: number;
  readonly round_s: number;
  /** Devices that the period has time for. */
  readonly most_in_period_count: number;
}

export function pollRound(values: PortValues, devices: number): PollRound {
  const { bit_rate_Hz, registers_count, answer_delay_s, period_s } = values;
  const character_s = bitsPerCharacter / bit_rate_Hz;
  const silence_s = bit_rate_Hz > fastBus_per_s ? fastSilence_s : silenceCharacters * character_s;
  const requests_count = Math.ceil(registers_count / mostRegisters);
  const exchange_s = (requestCharacters + answerCharacters) * character_s + 2 * silence_s + answer_delay_s;
  const device_s = requests_count * exchange_s + 2 * registers_count * character_s;
  return {
    requests_count,
    device_s,
    asked_s: silence_s + requestCharacters * character_s,
    round_s: devices * device_s,
    most_in_period_count: Math.floor(period_s / device_s),
  };
}
