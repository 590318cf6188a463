/**
 * Limits of sustained swings between edges: what goes on by itself is judged, what is driven is told beside it.
 *
 * A row's band divides the rows, and down to its lower edge swings must have been visible, or a pass says nothing. A
 * gap between edges shows what turns `periodsToSee` times in it.
 */
import { swingFloor_ratio } from '../../engine/meters/swing-meter.ts';
import type { Limit } from '../../limits/limit.ts';
import type { Outside } from '../judge/report.ts';
import { notShown, type Reading } from '../read/reading.ts';
import { type Case, worst } from '../record/case.ts';
import { numberText } from '../words/number-text.ts';
import { busSwings, deviceSwings, type JudgedSwing } from './judged-swings.ts';
import { swingWords } from './swing-words.ts';

/** A turn that is not counted, eight half swings, and the way to where the last is told. */
const periodsToSee = 4.75;

/** A swing of the trim quantum is told, not judged, up to this many times the limit; beyond, it is too coarse. */
const quantumAllowed = 2;

/** A device's swing from the row's lower edge up, over its rating. */
export function readDeviceRipple(c: Case, limit: Limit): Reading {
  return readSwings(c, limit, {
    found: deviceSwings(c),
    floor: swingFloor_ratio.device,
    judges: ({ swing }, [low_Hz]) => swing.frequency_Hz >= low_Hz,
  });
}

/** A node's swing from the row's lower edge up [V]. */
export function readBusRipple(c: Case, limit: Limit): Reading {
  return readSwings(c, limit, {
    found: busSwings(c),
    floor: swingFloor_ratio.node * c.scenario.nominal_V,
    judges: ({ swing }, [low_Hz]) => swing.frequency_Hz >= low_Hz,
  });
}

/**
 * A device's swing below the row's upper edge, however slow, but for the trim quantum's. A share loop that is too late
 * hunts at 1/(4 (T_d + T_s/2)), where its lag is 180°: that must have been visible as well.
 */
export function readDeviceHunting(c: Case, limit: Limit): Reading {
  const { latency_s, period_s } = c.scenario.firmware.share;
  return readSwings(c, limit, {
    found: deviceSwings(c),
    floor: swingFloor_ratio.device,
    judges: ({ swing }, [, high_Hz]) => swing.frequency_Hz < high_Hz,
    slowest_Hz: 1 / (4 * (latency_s + period_s / 2)),
  });
}

interface Sight {
  readonly found: readonly JudgedSwing[];
  /** Least swing that the meter sees, in the limit's unit. */
  readonly floor: number;
  /** Whether a swing belongs to a row of this band. */
  readonly judges: (swing: JudgedSwing, band_Hz: readonly [number, number]) => boolean;
  /** Must have been visible too, where it is slower than the row's lower edge. */
  readonly slowest_Hz?: number;
}

function readSwings(c: Case, limit: Limit, { found, floor, judges, slowest_Hz }: Sight): Reading {
  const { band_Hz } = limit;
  if (band_Hz === null) return notShown('the row states no band');
  const most = limit.value ?? Number.POSITIVE_INFINITY;
  if (most < floor) {
    return notShown(`swings are seen from ${numberText(floor, limit.unit)} up, above this limit`);
  }
  const inBand = found.filter((swing) => judges(swing, band_Hz));
  const counts = (swing: JudgedSwing): boolean => isOwn(swing, most);
  const own = worst(inBand.filter(counts), ({ size }) => size);
  const driven = worst(
    inBand.filter((swing) => !counts(swing)),
    ({ size }) => size,
  );
  const { longest_s } = c.result.swings.gaps;
  const seen_Hz = Math.min(band_Hz[0], slowest_Hz ?? band_Hz[0]);
  const needed_s = periodsToSee / seen_Hz;
  if (longest_s < needed_s && (own === null || own.size <= most)) {
    return notShown(blindWords(longest_s, seen_Hz));
  }
  return {
    value: own?.size ?? 0,
    node: own?.owner ?? null,
    time_s: own?.swing.at_s ?? null,
    duration_s: own?.swing.held_s ?? null,
    count: own?.swing.count ?? null,
    share_seen: seenShare(c, needed_s),
    outside: driven === null ? null : outsideOf(driven, c),
    reason: own === null ? null : swingWords(own, inBand, c.result.spans),
  };
}

/** Nothing drives it; or it is the trims' quantum, which is too coarse. */
function isOwn({ cause, size }: JudgedSwing, most: number): boolean {
  return cause === 'own' || (cause === 'trim-quantum' && size > quantumAllowed * most);
}

function blindWords(longest_s: number, seen_Hz: number): string {
  if (!(longest_s > 0)) return 'no time in the window lies between edges';
  const needed = numberText(periodsToSee / seen_Hz, 's');
  return `the longest time between edges is ${numberText(longest_s, 's')}; a swing of ${numberText(seen_Hz, 'Hz')} shows in ${needed}`;
}

/** Part of the window in gaps long enough. */
function seenShare(c: Case, needed_s: number): number | null {
  const { from_s, to_s } = c.result.window;
  const { by_length } = c.result.swings.gaps;
  let seen_s = 0;
  for (const { at_least_s, total_s } of by_length) if (at_least_s >= needed_s) seen_s += total_s;
  return to_s > from_s ? Math.min(1, seen_s / (to_s - from_s)) : null;
}

function outsideOf(driven: JudgedSwing, c: Case): Outside {
  return {
    value: driven.size,
    time_s: driven.swing.at_s,
    reason: swingWords(driven, [driven], c.result.spans),
  };
}
