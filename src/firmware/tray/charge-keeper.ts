/** What keeps the trays charged beside the smoothing: what its law (charge-law.ts) is told of each tray. */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import type { LawRun, LawWitness } from '../law-run.ts';
import {
  type ChargeCommand,
  type ChargeInput,
  type ChargeLaw,
  type ChargeMemory,
  measuredEnergy_J,
  runCharge,
  scheduledEnergy_J,
} from './charge-law.ts';
import type { SmoothingInput } from './smoothing-law.ts';

/** The charge law of `count` trays as the values tune it. */
export function chargeLawOf(values: SmoothingValues, count: number): ChargeLaw {
  return {
    count,
    time_constant_s: values.time_constant_s,
    middle_W: (values.load_low_W + values.load_high_W) / 2,
    charge_low_ratio: values.charge_low_ratio,
    charge_high_ratio: values.charge_high_ratio,
    charge_time_s: values.charge_time_s,
    charge_power_limit_W: values.charge_power_limit_W,
    integral_ratio: values.period_s / values.charge_integral_time_s,
    balance_time_s: values.balance_time_s,
  };
}

/** What each tray is to carry, which are on line, and what was sampled of them. */
type ToldOfTrays = Pick<ChargeInput, 'smooth_W' | 'isOnLine' | 'capacitor_V' | 'bus_V'>;

export class ChargeKeeper {
  /** By how much of its window each tray's measured charge is off. */
  readonly shift: Float64Array;
  readonly command: ChargeCommand;
  private readonly tuned: ChargeLaw;
  private readonly memory: ChargeMemory;
  private readonly input: ChargeInput;
  private readonly shown: LawRun;
  private readonly trays: TrayPorts;

  /** `told`: columns that the smoothing fills before each run. */
  constructor(trays: TrayPorts, values: SmoothingValues, told: ToldOfTrays) {
    const { count } = trays;
    const zeros = (): Float64Array => new Float64Array(count);
    this.trays = trays;
    this.tuned = chargeLawOf(values, count);
    this.memory = { integral_W: zeros() };
    this.shift = zeros();
    this.command = { asked_W: zeros(), given_W: zeros() };
    this.input = {
      ...told,
      smoothed_W: Number.NaN,
      isAssisting: false,
      isLost: false,
      shift_ratio: this.shift,
    };
    const { tuned, memory, input, command } = this;
    this.shown = { task: 'smoothing', law: { law: tuned, trays: trays.ratings }, memory, input, command };
  }

  /** z of each tray [W]. */
  get integral_W(): Float64Array {
    return this.memory.integral_W;
  }

  /** Energy in tray k's capacitor as it measures it, at voltage u [J]. */
  measured_J(k: number, u: number): number {
    return measuredEnergy_J(this.trays.ratings, k, u, this.shift[k]!);
  }

  /** Energy that tray k should hold when `count` trays share the smoothed load w [J]. */
  scheduled_J(k: number, w: number, count: number): number {
    return scheduledEnergy_J(this.tuned, this.trays.ratings, k, w, count);
  }

  /** Works out `command` beside what the smoothing was told and remembers. */
  run({ isAssisting, isLost }: SmoothingInput, smoothed_W: number, witness: LawWitness | null): void {
    const { trays, tuned, memory, input, command, shown } = this;
    input.smoothed_W = smoothed_W;
    input.isAssisting = isAssisting;
    input.isLost = isLost;
    witness?.('charge', shown, 'before');
    runCharge(tuned, trays.ratings, memory, input, command);
    witness?.('charge', shown, 'after');
  }
}
