/** What a step of one length needs: the kinds' coefficients and the factored nodal matrix. Made once, prepared anew. */
import type { BankRung } from '../devices/bank/bank-rung.ts';
import type { BarRung } from '../devices/bar/bar-rung.ts';
import type { CapacitorRung } from '../devices/capacitor/capacitor-rung.ts';
import type { IntakeRung } from '../devices/intake/intake-rung.ts';
import type { SensorRung } from '../devices/sensor/sensor-rung.ts';
import type { SledRung } from '../devices/sled/sled-rung.ts';
import type { StageRung } from '../devices/stage/stage-rung.ts';
import type { TrayRung } from '../devices/tray/tray-rung.ts';
import type { Network } from '../network/network.ts';
import type { Factor } from './factor.ts';

export class Rung {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly bars: BarRung;
  readonly capacitors: CapacitorRung;
  readonly banks: BankRung;
  readonly stages: StageRung;
  readonly intakes: IntakeRung;
  readonly trays: TrayRung;
  readonly sleds: SledRung;
  readonly sensor: SensorRung;
  readonly factor: Factor;

  /** The coefficients that every kind has prepared under the number `index`. */
  constructor(network: Network, index: number, factor: Factor) {
    this.bars = network.bars.rungs[index]!;
    this.capacitors = network.capacitors.rungs[index]!;
    this.banks = network.banks.rungs[index]!;
    this.stages = network.stages.rungs[index]!;
    this.intakes = network.intakes.rungs[index]!;
    this.trays = network.trays.rungs[index]!;
    this.sleds = network.sleds.rungs[index]!;
    this.sensor = network.sensor.rungs[index]!;
    this.factor = factor;
  }

  /** Stamps the nodal matrix with what the network's conductances are for this rung. */
  stamp(network: Network): void {
    const { bars, capacitors, banks, sleds } = network;
    const { factor } = this;
    factor.clear();
    for (let k = 0; k < bars.count; k++) {
      factor.addBetween(bars.from[k]!, bars.to[k]!, this.bars.admittance[k]!);
    }
    for (let k = 0; k < capacitors.count; k++) {
      factor.addToGround(capacitors.node[k]!, this.capacitors.admittance[k]!);
    }
    for (let k = 0; k < banks.count; k++) factor.addToGround(banks.node[k]!, this.banks.admittance[k]!);
    for (let k = 0; k < sleds.count; k++) factor.addToGround(sleds.node[k]!, -sleds.carried_S[k]!);
  }
}
