/** The smoothing law as a module of the user's computes it. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { SmoothingSetup } from './contract.ts';
import { Enclosure } from './enclosure.ts';

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

export class UserSmoothing {
  private readonly enclosure: Enclosure;
  private readonly count: number;

  constructor(spec: ControllerSpec, setup: SmoothingSetup) {
    const n = setup.trays.length;
    this.count = n;
    const column = `new Float64Array(${n})`;
    this.enclosure = new Enclosure(
      spec,
      setup,
      setup.trays,
      `{ time_s: 0, sources_W: 0, trays_W: 0, energy_J: ${column}, most_out_W: ${column}, most_in_W: ${column}, online: new Array(${n}).fill(false), resumed: false }`,
    );
  }

  get memory(): Float64Array {
    return this.enclosure.memory;
  }

  get memoryNames(): readonly string[] {
    return this.enclosure.memoryNames;
  }

  /** The built-in charge schedule is where every smoothing starts from. */
  get hasRest(): boolean {
    return false;
  }

  /** Power of each tray [W], as asked. Throws ControllerFault. */
  run(time_s: number, samples: TraySamples): Float64Array {
    const { input } = this.enclosure;
    input['time_s'] = time_s;
    input['sources_W'] = samples.sources_W;
    input['trays_W'] = samples.trays_W;
    input['resumed'] = samples.resumed;
    const [energy, out, into] = ['energy_J', 'most_out_W', 'most_in_W'].map(
      (name) => input[name] as Float64Array,
    );
    const online = input['online'] as boolean[];
    for (let k = 0; k < this.count; k++) {
      energy![k] = samples.energy_J(k);
      out![k] = samples.most_out_W(k);
      into![k] = samples.most_in_W(k);
      online[k] = samples.online(k);
    }
    this.enclosure.call('run', time_s);
    return this.enclosure.out;
  }

  settle(load_W: number, command_W: Float64Array): void {
    this.enclosure.putRest({ load_W, command_W: [...command_W] });
    this.enclosure.call('restingMemory', null);
  }
}
