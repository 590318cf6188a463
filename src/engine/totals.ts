/** The sums over the cabinet (`totals` in channels/channel.ts), of what the kinds show. */
import type { Int } from '../base/int.ts';
import type { Intakes } from '../devices/intake/intake.ts';
import { type IntakeReadout, intakeShows } from '../devices/intake/intake-readout.ts';
import type { SledReadout } from '../devices/sled/sled-readout.ts';
import type { Stages } from '../devices/stage/stage.ts';
import { type TrayReadout, trayShows } from '../devices/tray/tray-readout.ts';
import type { AllReadouts } from '../network/kinds.ts';
import type { Network } from '../network/network.ts';

export class Totals {
  private readonly at: Int;
  private readonly shelfCount: Int;
  private readonly trayCount: Int;
  private readonly sledCount: Int;
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly intakeReadout: IntakeReadout;
  private readonly trayReadout: TrayReadout;
  private readonly sledReadout: SledReadout;

  /** `at`: place of the first of them in the catalogue. */
  constructor(network: Network, shown: Pick<AllReadouts, 'intakes' | 'trays' | 'sleds'>, at: number) {
    this.at = at;
    this.shelfCount = network.shelfCount;
    this.trayCount = network.trays.count;
    this.sledCount = network.sleds.count;
    this.stages = network.stages;
    this.intakes = network.intakes;
    this.intakeReadout = shown.intakes;
    this.trayReadout = shown.trays;
    this.sledReadout = shown.sleds;
  }

  /** Current of the line, RMS per phase [A]. */
  private line_A(values: Float64Array, powersAt: Int): number {
    const { shelfCount, intakes } = this;
    let sum = 0;
    for (let k = 0; k < shelfCount; k++) sum += intakes.line_A(k, values[powersAt + k]!);
    return sum;
  }

  /** Writes them behind the values of all other channels. */
  read(values: Float64Array, x: Float64Array, v: Float64Array, smoothed_W: number): void {
    const { at, shelfCount, trayCount, sledCount } = this;
    const powersAt = this.intakeReadout.at[intakeShows.power]!;
    const load = sum(values, this.sledReadout.at[0]!, sledCount);
    const shelves = this.stages.given_W(0, shelfCount, x, v);
    const trays = sum(values, this.trayReadout.at[trayShows.power]!, trayCount);
    const batteries = this.stages.given_W(shelfCount, this.stages.count, x, v);
    values[at] = load;
    values[at + 1] = shelves;
    values[at + 2] = trays;
    values[at + 3] = batteries;
    values[at + 4] = load - shelves - trays - batteries;
    values[at + 5] = sum(values, powersAt, shelfCount);
    values[at + 6] = this.line_A(values, powersAt);
    values[at + 7] = smoothed_W;
  }
}

/** Sum of `count` values from `first` on. */
function sum(values: Float64Array, first: Int, count: Int): number {
  let total = 0;
  for (let k = 0; k < count; k++) total += values[first + k]!;
  return total;
}
