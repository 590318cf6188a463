/**
 * The response study: modes with their owners, frequency responses, bus impedance, minor loop gain and the
 * margins of every loop, about one settled point.
 */

import { type Complex, scaled } from '../../linear/complex.ts';
import { Curves, type Drive, logFrequencies, loopGain } from '../../linear/curves.ts';
import { type Margins, marginsOf } from '../../linear/margins.ts';
import { type Mode, modesOf } from '../../linear/modes.ts';
import { clampedShelves, restAt } from '../../linear/rest.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { type Curve, curveOf } from './curve.ts';
import { type MinorLoop, minorLoopOf } from './minor-loop.ts';
import { type Places, placesOf, unknownName } from './places.ts';
import { voltageLoops } from './voltage-loop.ts';

export interface ResponseOptions {
  /** Load at the settled point [W]. */
  readonly load_W: number;
  /** Nodes whose impedance is wanted; the lowest sled by default. */
  readonly nodes?: readonly string[];
  /** Shelf whose share and power loops are shown; the first running one by default. */
  readonly shelf?: string | null;
  readonly low_Hz?: number;
  readonly high_Hz?: number;
  readonly points?: number;
  /** Frequencies wanted beside the even ones: those of measured points. */
  readonly also_Hz?: readonly number[];
  readonly onProgress?: (fraction: number) => void;
}

export interface Loop extends Margins {
  readonly name: string;
  readonly about: string;
  readonly curve: Curve;
}

export interface Response {
  readonly load_W: number;
  readonly nodes: readonly string[];
  readonly shelf: string;
  readonly states: number;
  /** Finest step, and how far it shifts a frequency at the top of the range. */
  readonly rung_s: number;
  readonly warping_ratio: number;
  readonly curves: readonly Curve[];
  readonly loops: readonly Loop[];
  readonly minorLoops: readonly MinorLoop[];
  readonly modes: readonly Mode[];
  readonly remarks: readonly string[];
}

export const defaults = { low_Hz: 0.01, high_Hz: 2e4, points: 127 };

/** Runs the study. Throws BadInput where there is no operating point or no such node. */
export function respond(scenario: Scenario, options: ResponseOptions): Response {
  const cabinet = restAt(scenario, options.load_W);
  const { network, stepper } = cabinet;
  const names = network.topology.nodes;
  const wanted = (options.nodes ?? []).length > 0 ? options.nodes! : [lowestSled(network.sleds, stepper.v0)];
  const nodes = wanted.map((name) => {
    const node = names.indexOf(name);
    if (node < 0) throw unknownName('node', name, names);
    return node;
  });
  const places = placesOf(cabinet, nodes, options.shelf ?? null);
  const { system } = places;
  const high = options.high_Hz ?? defaults.high_Hz;
  const frequencies = [
    ...new Set([
      ...logFrequencies(options.low_Hz ?? defaults.low_Hz, high, options.points ?? defaults.points),
      ...(options.also_Hz ?? []),
    ]),
  ].sort((a, b) => a - b);
  const tell = options.onProgress ?? (() => {});

  const curves = new Curves(system);
  const pairs = pairsOf(places, nodes, names, scenario.nominal_V);
  const values = pairs.map((): Complex[] => []);
  const drives = [...new Set(pairs.map(({ drive }) => drive))];
  frequencies.forEach((f, k) => {
    const motions = curves.at(f, drives);
    pairs.forEach(({ drive, value }, p) => {
      values[p]!.push(value(motions[drives.indexOf(drive)]!));
    });
    tell((0.8 * (k + 1)) / frequencies.length);
  });
  const made = pairs.map(({ name, unit }, p) => curveOf(name, unit, frequencies, values[p]!));
  const isLoop = (k: number): boolean => pairs[k]!.loop !== null;
  const loops: Loop[] = [...voltageLoops(places, frequencies)].map(({ name, about, values: loop }) =>
    loopOf(name, about, frequencies, loop),
  );
  pairs.forEach((pair, p) => {
    if (pair.loop !== null) loops.push(loopOf(pair.name, pair.loop, frequencies, values[p]!));
  });
  tell(0.9);
  const modes = modesOf(system, { highest_Hz: high });
  tell(1);
  return {
    load_W: options.load_W,
    nodes: wanted,
    shelf: places.shelf,
    states: system.size,
    rung_s: system.rungTicks * system.tick_s,
    warping_ratio: curves.warped(2 * Math.PI * high) / (2 * Math.PI * high) - 1,
    curves: made.filter((_, k) => !isLoop(k)),
    loops,
    minorLoops: nodes.map((node, k) =>
      minorLoopOf(
        cabinet,
        node,
        wanted[k]!,
        frequencies,
        values[pairs.findIndex((pair) => pair.node === node)]!,
      ),
    ),
    modes,
    remarks: [
      ...reachOf(scenario, frequencies, made[0]!.gain_dB),
      ...remarksOf(scenario, clampedShelves(cabinet)),
    ],
  };
}

interface Wanted {
  readonly name: string;
  readonly unit: string;
  readonly drive: Drive;
  readonly value: (motion: ReturnType<Curves['at']>[number]) => Complex;
  /** What the loop is, where this is a loop gain. */
  readonly loop: string | null;
  readonly node: number | null;
}

function pairsOf(
  places: Places,
  nodes: readonly number[],
  names: readonly string[],
  nominal_V: number,
): Wanted[] {
  const { load, setPoints, unevenSetPoint, trayCommands, bulkReference, shelf } = places;
  const worst = nodes[0]!;
  const plain = (name: string, unit: string, drive: Drive, value: Wanted['value']): Wanted => ({
    name,
    unit,
    drive,
    value,
    loop: null,
    node: null,
  });
  const out: Wanted[] = [
    plain('load to rectifier current', 'times nominal voltage, W/W', load, (m) =>
      scaled(m.read(places.rectifierCurrent), nominal_V),
    ),
    plain('load to AC power', 'W/W', load, (m) => m.read(places.acPower)),
    plain(`set points to ${names[worst]}`, 'V/V', setPoints, (m) => m.read(places.voltage(worst))),
    plain(`set point of ${shelf} to its share`, 'of rated current per V', unevenSetPoint, (m) =>
      m.read(places.shareError),
    ),
    ...nodes.map((node) => ({
      ...plain(`impedance at ${names[node]}`, 'Ω', places.current(node), (m) => m.read(places.voltage(node))),
      node,
    })),
    {
      ...plain(`power loop of ${shelf}`, '', bulkReference, (m) => {
        const back = m.read(places.bulk);
        return loopGain({ re: -back.re, im: -back.im });
      }),
      loop: 'opened at the sensed bulk voltage',
    },
  ];
  const own = places.setPoint.findIndex(({ name }) => name.endsWith(` ${shelf}`));
  const volt = 0.1;
  if (places.trims.length > 1) {
    out.push({
      ...plain(`share loop of ${shelf}`, '', unevenSetPoint, (m) => {
        // What the trims answer along the drive's own pattern, per volt put in.
        const pattern = unevenSetPoint.weights.map(({ weight }) => weight);
        const square = pattern.reduce((sum, w) => sum + w * w, 0);
        let [re, im] = [0, 0];
        places.trims.forEach((at, k) => {
          const u = m.command(at);
          re += (pattern[k]! * u.re * volt) / square;
          im += (pattern[k]! * u.im * volt) / square;
        });
        return loopGain({ re, im });
      }),
      loop: `opened at the trims, ${shelf} against the others${own < 0 ? '' : ', sampling and latency included'}`,
    });
  }
  if (places.trays.length > 0) {
    const watt = 5e3;
    out.push({
      ...plain('smoothing loop', '', trayCommands, (m) => {
        let [re, im] = [0, 0];
        for (const at of places.trays) {
          const u = m.command(at);
          re += (u.re * watt) / places.trays.length;
          im += (u.im * watt) / places.trays.length;
        }
        return loopGain({ re, im });
      }),
      loop: 'opened at the tray commands, all trays together, sampling and latency included',
    });
  }
  return out;
}

function loopOf(
  name: string,
  about: string,
  frequencies: readonly number[],
  values: readonly Complex[],
): Loop {
  const margins = marginsOf(frequencies.map((frequency_Hz, k) => ({ frequency_Hz, value: values[k]! })));
  return { name, about, ...margins, curve: curveOf(name, '', frequencies, values) };
}

function lowestSled(
  { node, names }: { readonly node: Int32Array; readonly names: readonly string[] },
  v: Float64Array,
): string {
  let lowest = 0;
  names.forEach((_, k) => {
    if (v[node[k]!]! < v[node[lowest]!]!) lowest = k;
  });
  return names[lowest]!;
}

/** Common practice, no source: smoothing with a fast signal reaches to about here [Hz]. */
const fastReach_Hz = 200;

/** How far up the trays smooth: where the rectifiers' current follows the load in full again; and what 200 Hz takes. */
function reachOf(scenario: Scenario, frequency_Hz: readonly number[], gain_dB: readonly number[]): string[] {
  const { smoothing } = scenario.firmware;
  if (scenario.trays.length === 0) return [];
  const lowest = gain_dB.indexOf(Math.min(...gain_dB.filter((_, k) => frequency_Hz[k]! < 1e3)));
  const k = gain_dB.findIndex((gain, at) => at > lowest && gain >= 0);
  if (k < 1) return [];
  const reach = frequency_Hz[k - 1]!;
  // The age of a command: latency, half a period of holding, the measuring filter and the trays' own lag.
  const tray = scenario.trays[0]!.values.power_lag_s;
  const age =
    smoothing.latency_s + smoothing.period_s / 2 + 1 / (2 * Math.PI * smoothing.filter_corner_Hz) + tray;
  const allowed = (age * reach) / fastReach_Hz;
  const words = `Smoothing reaches to ${Number(reach.toPrecision(2))} Hz: above, the rectifiers follow the load in full. A command is ${(1e3 * age).toPrecision(2)} ms old (latency, hold, filter, tray lag)`;
  if (reach >= fastReach_Hz) return [`${words}.`];
  const rest = allowed - tray;
  return [
    `${words}; ${fastReach_Hz} Hz takes about ${(1e3 * allowed).toPrecision(2)} ms, so ${rest > 0 ? `${(1e3 * rest).toPrecision(2)} ms for latency, hold and filter` : 'faster trays too'}.`,
  ];
}

function remarksOf(scenario: Scenario, clamped: readonly string[]): string[] {
  const { share } = scenario.firmware;
  const remarks: string[] = [];
  if (share.dead_band_ratio > 0 || share.trim_quantum_V > 0) {
    remarks.push(
      `Linear: the share loop's dead band of ${(100 * share.dead_band_ratio).toPrecision(3)} % and quantum of ${(1e3 * share.trim_quantum_V).toPrecision(3)} mV are taken as zero. Inside the dead band the loop does not act, so near rest droop alone sets the operating point.`,
    );
  }
  remarks.push(
    'Clamps, slew limits and modes are those of the settled point; prove a choice in time with them on.',
  );
  if (clamped.length > 0) {
    remarks.push(`${clamped.join(', ')} are at a clamp at this point: their voltage loops do not act there.`);
  }
  return remarks;
}
