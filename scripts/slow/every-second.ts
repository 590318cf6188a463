/** A cabinet run in full by the engine, with the mean squares of every second and its packs at the end. */
import { advance, type Observer } from '../../src/engine/advance.ts';
import { started } from '../../src/engine/cycle/start.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { Gauge } from '../../src/engine/gauge.ts';
import { MeanSquareMeter } from '../../src/engine/meters/mean-square.ts';
import type { MeanSquare } from '../../src/engine/result.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

export interface InFull {
  /** Mean and RMS of bar and tray currents, of each second. */
  readonly seconds: readonly (readonly MeanSquare[])[];
  readonly charge_ratio: ReadonlyMap<string, number>;
  readonly pack_degC: ReadonlyMap<string, number>;
}

const kinds: readonly string[] = ['bar-current', 'tray-current'];

/** Without events: a scenario's own are not played. */
export function everySecond(scenario: Scenario, length_s: number): InFull {
  const { cabinet } = started(assemble(scenario), makeDemand(scenario), 1, undefined);
  const { network, stepper, controls } = cabinet;
  const gauge = new Gauge(network);
  const { values, channels } = gauge;
  const meter = new MeanSquareMeter(
    channels.map(({ id, kind }, index) => ({ id, kind, index })).filter(({ kind }) => kinds.includes(kind)),
  );
  const read = (x: Float64Array, v: Float64Array): void => gauge.read(x, v, controls.smoothing.smoothed_W);
  read(stepper.x0, stepper.v0);
  meter.start(values);
  const observer: Observer = {
    edge: () => {},
    step: (tick0, tick1) => {
      read(stepper.x1, stepper.v1);
      meter.take(tick0, tick1, values);
      return true;
    },
  };
  const agenda = firmwareAgenda(cabinet, 0);
  const second = Math.round(1 / scenario.tick_s);
  const seconds: (readonly MeanSquare[])[] = [];
  for (let n = 0; n < length_s; n++) {
    const from = meter.soFar();
    const { ending } = advance(cabinet, agenda, n * second, (n + 1) * second, observer);
    if (ending !== 'reached') throw new RangeError(`the run ended at ${n} s: ${ending}`);
    seconds.push(meter.between(from, meter.soFar()));
  }
  const { packs } = network;
  const state = (place: number): ReadonlyMap<string, number> =>
    new Map(packs.names.map((id, k) => [id, stepper.x0[packs.offset + place * packs.count + k]!]));
  return { seconds, charge_ratio: state(0), pack_degC: state(2) };
}
