import { Readout } from '../readout.ts';
import type { Trays } from './tray.ts';

/** Places among what trays show. */
export const trayShows = { power: 0, charge: 1, voltage: 2, current: 3 } as const;

export class TrayReadout extends Readout {
  private readonly trays: Trays;

  constructor(trays: Trays) {
    super([
      { kind: 'tray-power', quantity: 'power', unit: 'W', owners: trays.names },
      { kind: 'tray-charge', quantity: 'charge', unit: 'ratio', owners: trays.names },
      { kind: 'tray-voltage', quantity: 'capacitor', unit: 'V', owners: trays.names },
      { kind: 'tray-current', quantity: 'capacitor_current', unit: 'A', owners: trays.names },
    ]);
    this.trays = trays;
  }

  override read(out: Float64Array, x: Float64Array, v: Float64Array): void {
    const { at, trays } = this;
    const { count, offset, node } = trays;
    const oPower = at[trayShows.power]!;
    const oCharge = at[trayShows.charge]!;
    const oVoltage = at[trayShows.voltage]!;
    const oCurrent = at[trayShows.current]!;
    for (let k = 0; k < count; k++) {
      const u = x[offset + count + k]!;
      const p = trays.delivered_W(k, x[offset + k]!, v[node[k]!]!);
      out[oPower + k] = p;
      out[oCharge + k] = trays.charge_ratio(k, u);
      out[oVoltage + k] = u;
      out[oCurrent + k] = trays.capacitorCurrent_A(k, p, u);
    }
  }
}
