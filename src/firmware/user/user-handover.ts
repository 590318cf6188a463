/** The hand-over of battery shelves as a module of the user's decides it. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { HandoverSetup } from './contract.ts';
import { UserLaw } from './user-law.ts';

/** What a hand-over is told of its shelves. */
export interface HandoverSamples {
  readonly voltage_V: (k: number) => number;
  readonly current_A: (k: number) => number;
  readonly charge_ratio: (k: number) => number;
  readonly isStarting: (k: number) => boolean;
  readonly isCarrying: (k: number) => boolean;
  readonly isAcLost: boolean;
  readonly isSettled: boolean;
}

export class UserHandover extends UserLaw {
  private readonly count: number;

  constructor(spec: ControllerSpec, setup: HandoverSetup) {
    super(spec, setup, setup.batteries, {
      time_s: 'number',
      voltage_V: 'numbers',
      current_A: 'numbers',
      charge_ratio: 'numbers',
      starting: 'flags',
      carrying: 'flags',
      ac_lost: 'flag',
      settled: 'flag',
    });
    this.count = setup.batteries.length;
    this.enclosure.call('restingMemory', null, '{}');
  }

  /** Set point of each shelf [V]; 0 or less where it is to sleep. Throws ControllerFault. */
  run(time_s: number, told: HandoverSamples): Float64Array {
    const { input } = this.enclosure;
    input['time_s']![0] = time_s;
    input['ac_lost']![0] = told.isAcLost ? 1 : 0;
    input['settled']![0] = told.isSettled ? 1 : 0;
    const [volts, amperes, charge] = [input['voltage_V']!, input['current_A']!, input['charge_ratio']!];
    const [starting, carrying] = [input['starting']!, input['carrying']!];
    for (let k = 0; k < this.count; k++) {
      volts[k] = told.voltage_V(k);
      amperes[k] = told.current_A(k);
      charge[k] = told.charge_ratio(k);
      starting[k] = told.isStarting(k) ? 1 : 0;
      carrying[k] = told.isCarrying(k) ? 1 : 0;
    }
    this.enclosure.call('run', time_s);
    return this.enclosure.out;
  }
}
