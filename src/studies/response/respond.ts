/**
 * Modes with their owners, frequency responses, bus impedance, minor loop gain and the margins of every loop, about
 * one settled point.
 */

import type { Complex } from '../../linear/complex.ts';
import { logFrequencies } from '../../linear/curves.ts';
import { decibels } from '../../linear/decibels.ts';
import type { Mode } from '../../linear/modes.ts';
import { clampedShelves } from '../../linear/rest.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { type Curve, curveOf } from './curve.ts';
import { type LimitCycle, limitCyclesOf } from './cycles/limit-cycles.ts';
import type { Loop } from './loop.ts';
import { loopsOf, marginGrid } from './loops.ts';
import { type MinorLoop, minorLoopOf } from './minor-loop.ts';
import { delayOf, remarksOf } from './remarks.ts';
import { untoldLoops } from './sampled-loops.ts';
import { type Settled, type SettledAsked, settledAt } from './settled.ts';
import { smoothingOf } from './smoothing.ts';
import { followed, type Wanted } from './wanted.ts';

/** What is wanted of a response, about the settled point. */
export interface ResponseAsked extends SettledAsked {
  /** The state in words, as it was asked for. */
  readonly state?: readonly string[];
  readonly low_Hz?: number;
  readonly high_Hz?: number;
  readonly points?: number;
  /** Frequencies wanted beside the even ones: those of measured points. */
  readonly also_Hz?: readonly number[];
}

/** Null where a gain is 0, which has no decibels. */
export type ResponseCurve = Omit<Curve, 'gain_dB'> & { readonly gain_dB: readonly (number | null)[] };

/** Null where a mode neither grows nor decays. */
export type ResponseMode = Omit<Mode, 'time_constant_s'> & { readonly time_constant_s: number | null };

/** What is found, as JSON can hold it. */
export interface Response {
  readonly load_W: number;
  /** What had come to stay, `ac-loss all`; empty: as built. */
  readonly state: readonly string[];
  readonly nodes: readonly string[];
  readonly shelf: string;
  readonly states: number;
  /** Finest step, and how far it shifts a frequency at the top of the range. */
  readonly rung_s: number;
  readonly warping_ratio: number;
  /** How fast packs that carry give away their charge [1/s]; a mode that grows no faster and does not swing is theirs. */
  readonly emptying_per_s: number;
  readonly remarks: readonly string[];
  /** Responses, loop gains and minor loops alike. */
  readonly curves: readonly ResponseCurve[];
  readonly loops: readonly Loop[];
  readonly minor_loops: readonly Omit<MinorLoop, 'curve'>[];
  readonly modes: readonly ResponseMode[];
  /** Of each quantum, dead band and slew limit: what it swings with, or why nothing is said. */
  readonly limit_cycles: readonly LimitCycle[];
}

export const defaults = { low_Hz: 0.01, high_Hz: 2e4, points: 127 };

/** Throws BadInput where there is no operating point or no such node. */
export function respond(scenario: Scenario, options: ResponseAsked): Response {
  const high = options.high_Hz ?? defaults.high_Hz;
  const frequencies = [
    ...new Set([
      ...logFrequencies(options.low_Hz ?? defaults.low_Hz, high, options.points ?? defaults.points),
      ...(options.also_Hz ?? []),
    ]),
  ].sort((a, b) => a - b);
  const settled = settledAt(scenario, options, { frequencies, highest_Hz: high });
  const { cabinet, nodes, nodeNames, places, wanted, motions, modes, growing, emptying_per_s } = settled;
  const { system } = places;
  const valuesOf = ({ drive, value }: Wanted): Complex[] =>
    frequencies.map((f) => value(motions.under([drive], f)[0]!));
  const plain = wanted
    .filter(({ loop }) => loop === null)
    .map((one) => curveOf(one.name, one.unit, frequencies, valuesOf(one)));
  const follows = plain.find(({ name }) => name === followed);
  const loops = loopsOf(settled, { frequencies, growing });
  const minorLoops = nodes.map((node, k) => {
    const { drive, value } = wanted.find((one) => one.node === node)!;
    const impedance = (f: number): Complex => value(motions.under([drive], f)[0]!);
    const name = nodeNames[k]!;
    return minorLoopOf(cabinet, { node, name, frequencies, impedance, grid: marginGrid(), growing });
  });
  const curves = [...plain, ...loops.map(({ curve }) => curve), ...minorLoops.map(({ curve }) => curve)];
  return {
    load_W: options.load_W,
    state: options.state ?? [],
    nodes: nodeNames,
    shelf: places.shelf,
    states: system.size,
    rung_s: system.rungTicks * system.tick_s,
    warping_ratio: motions.curves.warped(2 * Math.PI * high) / (2 * Math.PI * high) - 1,
    emptying_per_s,
    remarks: [
      ...(follows === undefined
        ? []
        : smoothingOf(scenario, {
            frequency_Hz: frequencies,
            gain_dB: follows.gain_dB,
            node: nodeNames[0]!,
            raised_dB: raisedOf(settled, frequencies),
          })),
      ...delayOf(scenario, loops),
      ...untoldLoops(places),
      ...remarksOf(scenario, clampedShelves(cabinet)),
    ],
    curves: curves.map((curve) => ({ ...curve, gain_dB: curve.gain_dB.map(finite) })),
    loops: loops.map(({ curve: _, ...loop }) => loop),
    minor_loops: minorLoops.map(({ curve: _, ...loop }) => loop),
    modes: modes.map((mode) => ({ ...mode, time_constant_s: finite(mode.time_constant_s) })),
    limit_cycles: limitCyclesOf(scenario, cabinet, places),
  };
}

/** Impedance at the first node, over the same with all commands held [dB]. */
function raisedOf({ wanted, nodes, motions }: Settled, frequencies: readonly number[]): number[] {
  const { drive, value } = wanted.find(({ node }) => node === nodes[0])!;
  return frequencies.map((f) => {
    const [now, held] = [motions.under([drive], f)[0]!, motions.underHeld([drive], f)[0]!];
    return decibels(value(now)) - decibels(value(held));
  });
}

/** JSON has no infinity. */
function finite(x: number): number | null {
  return Number.isFinite(x) ? x : null;
}
