/** What keeps the trays charged beside the smoothing: what its law (charge-law.ts) is told of each tray. */
import type { Int } from '../../base/int.ts';
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import type { LawRun, LawWitness } from '../law-run.ts';
import type { Site } from '../site.ts';
import {
  type ChargeCommand,
  type ChargeInput,
  type ChargeLaw,
  type ChargeMemory,
  chargeTrays,
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
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  /** By how much of its window each tray's measured charge is off. */
  readonly shift: Float64Array;
  readonly command: ChargeCommand;
  readonly tuned: ChargeLaw;
  readonly memory: ChargeMemory;
  readonly input: ChargeInput;
  readonly trays: TrayPorts;
  private readonly shown: LawRun;

  /** `told`: columns that the smoothing fills before each run. */
  constructor({ trays, loops }: Site, values: SmoothingValues, told: ToldOfTrays) {
    const { count } = trays;
    const zeros = (): Float64Array => loops.column(count);
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
    loops.hold('ChargeKeeper', this);
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

  /** Works out `command` beside what the smoothing was told and remembers, while somebody looks on. */
  run({ isAssisting, isLost }: SmoothingInput, smoothed_W: number, witness: LawWitness): void {
    const { trays, tuned, memory, input, command, shown } = this;
    input.smoothed_W = smoothed_W;
    input.isAssisting = isAssisting;
    input.isLost = isLost;
    witness('charge', shown, 'before');
    runCharge(tuned, trays.ratings, memory, input, command);
    witness('charge', shown, 'after');
  }

  /**
   * The same where nobody does, and tells each tray on line what it is given where that is `isStraight` and all that
   * is asked for. Returns how hard that kicks the bus [W/s]; −1 where nothing was told.
   */
  ask(smoothed_W: number, isAssisting: boolean, isLost: boolean, isStraight: boolean): number {
    const { tuned, trays, memory, input, command } = this;
    chargeTrays(tuned, trays.ratings, memory, input, command, smoothed_W, isAssisting, isLost);
    return isStraight && this.isWhole() ? this.tell() : -1;
  }

  /** Every tray on line can give what is asked of it. */
  private isWhole(): boolean {
    const { count } = this.tuned;
    const { isOnLine } = this.input;
    const { asked_W, given_W } = this.command;
    for (let k: Int = 0; k < count; k++) if (isOnLine[k] !== 0 && given_W[k] !== asked_W[k]) return false;
    return true;
  }

  private tell(): number {
    const { trays } = this;
    const { count } = this.tuned;
    const { isOnLine } = this.input;
    const { given_W } = this.command;
    let kick = 0;
    for (let k: Int = 0; k < count; k++) if (isOnLine[k] !== 0) kick += trays.command(k, given_W[k]!);
    return kick;
  }
}
