import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Trays } from './tray.ts';
import { type TrayReadout, trayShows } from './tray-readout.ts';

/** What trays lose in their converter, in the resistance of their capacitors and by leakage. */
export class TrayBooks extends Books {
  private readonly trays: Trays;
  private readonly readout: TrayReadout;
  private readonly converter_J: Float64Array;
  private readonly resistance_J: Float64Array;
  private readonly leakage_J: Float64Array;
  /** Capacitor current at the start of the step [A]. */
  private readonly past_A: Float64Array;

  constructor(trays: Trays, readout: TrayReadout) {
    super();
    this.trays = trays;
    this.readout = readout;
    this.converter_J = new Float64Array(trays.count);
    this.resistance_J = new Float64Array(trays.count);
    this.leakage_J = new Float64Array(trays.count);
    this.past_A = new Float64Array(trays.count);
  }

  override resume(x: Float64Array, v: Float64Array): void {
    const { trays, past_A } = this;
    for (let k = 0; k < trays.count; k++) {
      const p = trays.delivered_W(k, x[trays.offset + k]!, v[trays.node[k]!]!);
      past_A[k] = trays.capacitorCurrent_A(k, p, x[trays.offset + trays.count + k]!);
    }
  }

  override take(p: number, q: number, ends: Ends, shown: Float64Array): void {
    const { x0, v0, x1 } = ends;
    const { trays, converter_J, resistance_J, leakage_J, past_A } = this;
    const { at } = this.readout;
    const powersAt = at[trayShows.power]!;
    const currentsAt = at[trayShows.current]!;
    const { count, offset, node } = trays;
    const { esr_ohm, leakage_A } = trays.columns;
    for (let k = 0; k < count; k++) {
      const p0 = trays.delivered_W(k, x0[offset + k]!, v0[node[k]!]!);
      const p1 = shown[powersAt + k]!;
      const u0 = x0[offset + count + k]!;
      const u1 = x1[offset + count + k]!;
      const i0 = past_A[k]!;
      const i1 = shown[currentsAt + k]!;
      past_A[k] = i1;
      const R = esr_ohm[k]!;
      const square = p * i0 * i0 + q * i1 * i1;
      converter_J[k]! += p * (u0 * i0 - p0) + q * (u1 * i1 - p1) - R * square;
      resistance_J[k]! += R * square;
      leakage_J[k]! += leakage_A[k]! * (p * u0 + q * u1);
    }
  }

  override accounts(): readonly Account[] {
    const { names: owners } = this.trays;
    return [
      { kind: 'loss', cause: 'converter', owners, energy_J: this.converter_J },
      { kind: 'loss', cause: 'capacitor resistance', owners, energy_J: this.resistance_J },
      { kind: 'loss', cause: 'leakage', owners, energy_J: this.leakage_J },
    ];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { trays } = this;
    trays.names.forEach((name, k) => {
      put(`tray ${name}`, trays.fastEnergy_J(k, x[trays.offset + trays.count + k]!));
    });
  }
}
