/** Numbers that controllers of the user's own let be seen: no states and no currents, only what stands in them now. */
import type { Int } from '../../base/int.ts';
import type { ChannelUnit } from '../../channels/channel.ts';

/** Whose number it is, what it is called, and its unit, as in a channel's id. */
export interface ShownNumber {
  readonly owner: string;
  readonly quantity: string;
  readonly unit: ChannelUnit;
}

export class Display {
  readonly count: Int;
  readonly numbers: readonly ShownNumber[];
  readonly values: Float64Array;

  constructor(numbers: readonly ShownNumber[]) {
    this.count = numbers.length;
    this.numbers = numbers;
    this.values = new Float64Array(numbers.length);
  }
}
