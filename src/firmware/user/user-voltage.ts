/** The sampled voltage loop as a module of the user's computes it. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { VoltageInput } from '../shelf/voltage-law.ts';
import type { VoltageSetup } from './contract.ts';
import { UserLaw } from './user-law.ts';

export class UserVoltage extends UserLaw {
  constructor(spec: ControllerSpec, setup: VoltageSetup) {
    super(spec, setup, setup.shelves, {
      time_s: 'number',
      voltage_V: 'numbers',
      current_A: 'numbers',
      reference_V: 'numbers',
      limit_A: 'numbers',
      alive_ratio: 'numbers',
      running: 'flags',
    });
  }

  /** Current of each shelf [A], as asked. Throws ControllerFault. */
  run(time_s: number, told: VoltageInput): Float64Array {
    const { enclosure } = this;
    const { input } = enclosure;
    input['time_s']![0] = time_s;
    input['voltage_V']!.set(told.voltage_V);
    input['current_A']!.set(told.current_A);
    input['reference_V']!.set(told.reference_V);
    input['limit_A']!.set(told.limit_A);
    input['alive_ratio']!.set(told.alive_ratio);
    input['running']!.set(told.isRunning);
    enclosure.call('run', time_s);
    return enclosure.out;
  }

  /** Memory where the cabinet has settled on these currents. */
  settle(current_A: Float64Array, alive_ratio: Float64Array): void {
    const rest = { current_A: [...current_A], alive_ratio: [...alive_ratio] };
    this.enclosure.call('restingMemory', null, JSON.stringify(rest));
  }
}
