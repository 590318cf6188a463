/**
 * Modes with their owners, frequency responses, bus impedance, minor loop gain and the margins of every loop, about
 * one settled point.
 */

import { numberText } from '../../analysis/words/number-text.ts';
import type { Complex } from '../../linear/complex.ts';
import { Curves, logFrequencies } from '../../linear/curves.ts';
import { type Margins, marginsOf } from '../../linear/margins.ts';
import { type Mode, modesOf } from '../../linear/modes.ts';
import { clampedShelves, restAt } from '../../linear/rest.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { AtLoad } from '../settled-load.ts';
import { type Curve, curveOf } from './curve.ts';
import { type MinorLoop, minorLoopOf } from './minor-loop.ts';
import { placesOf, unknownName } from './places.ts';
import { reachOf, remarksOf } from './remarks.ts';
import { voltageLoops } from './voltage-loop.ts';
import { wantedOf } from './wanted.ts';

/** What is wanted of a response, about the settled point. */
export interface ResponseAsked extends AtLoad {
  /** Nodes whose impedance is wanted; the lowest sled by default. */
  readonly nodes?: readonly string[];
  /** Shelf whose share and power loops are shown; the first running one by default. */
  readonly shelf?: string | null;
  readonly low_Hz?: number;
  readonly high_Hz?: number;
  readonly points?: number;
  /** Frequencies wanted beside the even ones: those of measured points. */
  readonly also_Hz?: readonly number[];
}

/** A loop opened at one place: what it is, and its margins. */
export interface Loop extends Margins {
  readonly name: string;
  readonly about: string;
}

/** Null where a gain is 0, which has no decibels. */
export type ResponseCurve = Omit<Curve, 'gain_dB'> & { readonly gain_dB: readonly (number | null)[] };

/** Null where a mode neither grows nor decays. */
export type ResponseMode = Omit<Mode, 'time_constant_s'> & { readonly time_constant_s: number | null };

/** What is found, as JSON can hold it. */
export interface Response {
  readonly load_W: number;
  readonly nodes: readonly string[];
  readonly shelf: string;
  readonly states: number;
  /** Finest step, and how far it shifts a frequency at the top of the range. */
  readonly rung_s: number;
  readonly warping_ratio: number;
  readonly remarks: readonly string[];
  /** Responses, loop gains and minor loops alike. */
  readonly curves: readonly ResponseCurve[];
  readonly loops: readonly Loop[];
  readonly minor_loops: readonly Omit<MinorLoop, 'curve'>[];
  readonly modes: readonly ResponseMode[];
}

export const defaults = { low_Hz: 0.01, high_Hz: 2e4, points: 127 };

/** Throws BadInput where there is no operating point or no such node. */
export function respond(scenario: Scenario, options: ResponseAsked): Response {
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

  const motion = new Curves(system);
  const pairs = wantedOf(places, nodes, names, scenario.nominal_V);
  const values = pairs.map((): Complex[] => []);
  const drives = [...new Set(pairs.map(({ drive }) => drive))];
  for (const f of frequencies) {
    const motions = motion.at(f, drives);
    pairs.forEach(({ drive, value }, p) => {
      values[p]!.push(value(motions[drives.indexOf(drive)]!));
    });
  }
  const made = pairs.map(({ name, unit }, p) => curveOf(name, unit, frequencies, values[p]!));
  const isLoop = (k: number): boolean => pairs[k]!.loop !== null;
  const loops: DrawnLoop[] = [...voltageLoops(places, frequencies)].map(({ name, about, values: loop }) =>
    loopOf(name, about, frequencies, loop),
  );
  pairs.forEach((pair, p) => {
    const { name, loop, half_sampling_Hz } = pair;
    if (loop === null || frequencies[0]! > (half_sampling_Hz ?? Number.POSITIVE_INFINITY)) return;
    loops.push(loopOf(name, loop, frequencies, values[p]!, half_sampling_Hz));
  });
  const modes = modesOf(system, { highest_Hz: high });
  const minorLoops = nodes.map((node, k) => {
    const seen = values[pairs.findIndex((pair) => pair.node === node)]!;
    return minorLoopOf(cabinet, node, wanted[k]!, frequencies, seen);
  });
  const curves = [
    ...made.filter((_, k) => !isLoop(k)),
    ...loops.map(({ curve }) => curve),
    ...minorLoops.map(({ curve }) => curve),
  ];
  return {
    load_W: options.load_W,
    nodes: wanted,
    shelf: places.shelf,
    states: system.size,
    rung_s: system.rungTicks * system.tick_s,
    warping_ratio: motion.warped(2 * Math.PI * high) / (2 * Math.PI * high) - 1,
    remarks: [
      ...reachOf(scenario, frequencies, made[0]!.gain_dB),
      ...remarksOf(scenario, clampedShelves(cabinet)),
    ],
    curves: curves.map((curve) => ({ ...curve, gain_dB: curve.gain_dB.map(finite) })),
    loops: loops.map(({ curve: _, ...loop }) => loop),
    minor_loops: minorLoops.map(({ curve: _, ...loop }) => loop),
    modes: modes.map((mode) => ({ ...mode, time_constant_s: finite(mode.time_constant_s) })),
  };
}

/** JSON has no infinity. */
function finite(x: number): number | null {
  return Number.isFinite(x) ? x : null;
}

/** A loop with its gain as a curve. */
interface DrawnLoop extends Loop {
  readonly curve: Curve;
}

function loopOf(
  name: string,
  about: string,
  frequencies: readonly number[],
  values: readonly Complex[],
  half_sampling_Hz: number | null = null,
): DrawnLoop {
  const points = frequencies.map((frequency_Hz, k) => ({ frequency_Hz, value: values[k]! }));
  const upTo =
    half_sampling_Hz === null ? '' : `; up to ${numberText(half_sampling_Hz, 'Hz')}, half its sampling rate`;
  return {
    name,
    about: `${about}${upTo}`,
    ...marginsOf(points, half_sampling_Hz),
    curve: curveOf(name, '', frequencies, values, half_sampling_Hz),
  };
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
