/**
 * Margins of loops that are opened at like places all at once: how much gain, lag or delay, the same in all, takes a
 * mode to where it neither grows nor decays. A single loop is a matrix of one.
 */
import type { Complex } from '../complex.ts';
import { eigenvaluesOf } from '../complex-eigenvalues.ts';
import type { ComplexMatrix } from '../complex-matrix.ts';
import { ratio_dB } from '../decibels.ts';
import { diskRatio, gainOfDisk_dB, phaseOfDisk_deg, returnDifference } from './disk.ts';
import { type EdgeGain, edgeGains, gainToStable } from './edge-gains.ts';
import { type LociPoint, traceLoci } from './loci.ts';
import { lowestOf } from './lowest.ts';
import { circlePassings, lagTo } from './passings.ts';

/** Loop gain at a frequency, n × n, its inputs and outputs in the same order and alike. */
export type LoopAt = (frequency_Hz: number) => ComplexMatrix;

/** Every margin null where the closed loop has growing modes: there is none then. */
export interface Margins {
  /** How far all gains may rise [dB] and where a mode then stands; null: further than 40 dB. */
  readonly gain_margin_dB: number | null;
  readonly phase_crossover_Hz: number | null;
  /** How far all gains may fall [dB, below 0]; null: further than 40 dB. */
  readonly gain_down_dB: number | null;
  readonly gain_down_Hz: number | null;
  /** Lag that takes a locus of size 1 to −1 [°], below 0 where it is lead; null: no locus passes 1. */
  readonly phase_margin_deg: number | null;
  readonly crossover_Hz: number | null;
  /** Delay in all loops that does [s]. */
  readonly delay_margin_s: number | null;
  readonly delay_margin_Hz: number | null;
  /** Least singular value of I + L: of a single loop its least distance from −1. */
  readonly clearance_ratio: number | null;
  readonly clearance_Hz: number | null;
  /** Disk margin α, and what it allows each loop by itself. */
  readonly disk_ratio: number | null;
  readonly disk_Hz: number | null;
  readonly disk_gain_dB: number | null;
  readonly disk_phase_deg: number | null;
  /** Of an unstable loop: the least change of all gains after which no mode grows [dB]; null: none is known. */
  readonly stable_at_dB: number | null;
}

const none: Margins = {
  gain_margin_dB: null,
  phase_crossover_Hz: null,
  gain_down_dB: null,
  gain_down_Hz: null,
  phase_margin_deg: null,
  crossover_Hz: null,
  delay_margin_s: null,
  delay_margin_Hz: null,
  clearance_ratio: null,
  clearance_Hz: null,
  disk_ratio: null,
  disk_Hz: null,
  disk_gain_dB: null,
  disk_phase_deg: null,
  stable_at_dB: null,
};

/**
 * `grid`: ascending frequencies to begin with; every margin is found between them. `growing`: poles of the closed loop
 * that grow, a pair counting two. `half_Hz`: half the sampling rate of loops that are sampled.
 */
export function marginsOf(loop: LoopAt, grid: readonly number[], growing: number, half_Hz?: number): Margins {
  const kept = new Map<number, ComplexMatrix>();
  const at = (frequency_Hz: number): ComplexMatrix => {
    const known = kept.get(frequency_Hz) ?? loop(frequency_Hz);
    kept.set(frequency_Hz, known);
    return known;
  };
  const loci = (frequency_Hz: number): readonly Complex[] => eigenvaluesOf(at(frequency_Hz));
  const points = traceLoci(loci, grid);
  const edges = edgeGains(loci, points, half_Hz);
  if (growing > 0) return { ...none, stable_at_dB: gainToStable(edges, growing) };
  const { up, down } = nearest(edges);
  const lowest = (of: (L: ComplexMatrix) => number) =>
    lowestOf(
      (frequency_Hz) => of(at(frequency_Hz)),
      points.map(({ frequency_Hz }) => ({ frequency_Hz, value: of(at(frequency_Hz)) })),
    );
  const clearance = lowest(returnDifference);
  const disk = lowest(diskRatio);
  return {
    ...none,
    gain_margin_dB: up === null ? null : ratio_dB(up.gain_ratio),
    phase_crossover_Hz: up?.frequency_Hz ?? null,
    gain_down_dB: down === null ? null : ratio_dB(down.gain_ratio),
    gain_down_Hz: down?.frequency_Hz ?? null,
    ...lagMargins(loci, points),
    clearance_ratio: clearance.value,
    clearance_Hz: clearance.frequency_Hz,
    disk_ratio: disk.value,
    disk_Hz: disk.frequency_Hz,
    disk_gain_dB: gainOfDisk_dB(disk.value),
    disk_phase_deg: phaseOfDisk_deg(disk.value),
  };
}

/** Least singular value of I + L over all frequencies, of a single loop its least distance from −1. */
export function clearanceOf(loop: LoopAt, grid: readonly number[]): number {
  const distance = (frequency_Hz: number): number => returnDifference(loop(frequency_Hz));
  const points = traceLoci((frequency_Hz) => eigenvaluesOf(loop(frequency_Hz)), grid);
  return lowestOf(
    distance,
    points.map(({ frequency_Hz }) => ({ frequency_Hz, value: distance(frequency_Hz) })),
  ).value;
}

/** Of edges in ascending order of gain: the first above 1 and the last below. */
function nearest(edges: readonly EdgeGain[]): { up: EdgeGain | null; down: EdgeGain | null } {
  return {
    up: edges.find(({ gain_ratio }) => gain_ratio >= 1) ?? null,
    down: edges.findLast(({ gain_ratio }) => gain_ratio < 1) ?? null,
  };
}

function lagMargins(
  loci: (frequency_Hz: number) => readonly Complex[],
  points: readonly LociPoint[],
): Pick<Margins, 'phase_margin_deg' | 'crossover_Hz' | 'delay_margin_s' | 'delay_margin_Hz'> {
  const crossovers = circlePassings(loci, points, [(_, value) => Math.abs(lagTo(value)), delayTo]);
  if (crossovers.length === 0)
    return { phase_margin_deg: null, crossover_Hz: null, delay_margin_s: null, delay_margin_Hz: null };
  const [phase, delay] = [
    crossovers.map(({ value }) => lagTo(value)),
    crossovers.map((one) => delayTo(one.frequency_Hz, one.value)),
  ];
  const nearest_rad = phase.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
  const shortest_s = Math.min(...delay);
  return {
    phase_margin_deg: (nearest_rad * 180) / Math.PI,
    crossover_Hz: crossovers[phase.indexOf(nearest_rad)]!.frequency_Hz,
    delay_margin_s: shortest_s,
    delay_margin_Hz: crossovers[delay.indexOf(shortest_s)]!.frequency_Hz,
  };
}

/** Delay that takes a value to −180° [s]. */
function delayTo(frequency_Hz: number, value: Complex): number {
  const lag = lagTo(value);
  return (lag < 0 ? lag + 2 * Math.PI : lag) / (2 * Math.PI * frequency_Hz);
}
