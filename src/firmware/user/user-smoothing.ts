/** The smoothing law as a module of the user's computes it. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { SmoothingSetup } from './contract.ts';
import { UserLaw } from './user-law.ts';

/** What the trays measured and can do, as old as the latency. */
export interface TraySamples {
  readonly sources_W: number;
  readonly trays_W: number;
  readonly energy_J: (k: number) => number;
  readonly most_out_W: (k: number) => number;
  readonly most_in_W: (k: number) => number;
  readonly online: (k: number) => boolean;
  readonly resumed: boolean;
}

export class UserSmoothing extends UserLaw {
  private readonly count: number;

  constructor(spec: ControllerSpec, setup: SmoothingSetup) {
    super(spec, setup, setup.trays, {
      time_s: 'number',
      sources_W: 'number',
      trays_W: 'number',
      energy_J: 'numbers',
      most_out_W: 'numbers',
      most_in_W: 'numbers',
      online: 'flags',
      resumed: 'flag',
    });
    this.count = setup.trays.length;
  }

  /** The built-in charge schedule is where every smoothing starts from. */
  get hasRest(): boolean {
    return false;
  }

  /** Power of each tray [W], as asked. Throws ControllerFault. */
  run(time_s: number, samples: TraySamples): Float64Array {
    const { input } = this.enclosure;
    input['time_s']![0] = time_s;
    input['sources_W']![0] = samples.sources_W;
    input['trays_W']![0] = samples.trays_W;
    input['resumed']![0] = samples.resumed ? 1 : 0;
    const energy = input['energy_J']!;
    const out = input['most_out_W']!;
    const into = input['most_in_W']!;
    const online = input['online']!;
    for (let k = 0; k < this.count; k++) {
      energy[k] = samples.energy_J(k);
      out[k] = samples.most_out_W(k);
      into[k] = samples.most_in_W(k);
      online[k] = samples.online(k) ? 1 : 0;
    }
    this.enclosure.call('run', time_s);
    return this.enclosure.out;
  }

  settle(load_W: number, command_W: Float64Array): void {
    this.enclosure.call('restingMemory', null, JSON.stringify({ load_W, command_W: [...command_W] }));
  }
}
