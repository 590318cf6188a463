/** What the limits of the line voltage at the shelves compare: its means over the row's stay, and how loaded the supply is. */
import type { Limit } from '../../limits/limit.ts';
import { isInside } from '../judge/tie.ts';
import { notShown, type Reading, unsettled } from '../read/reading.ts';
import { type Case, repeated, spansOf, windowLength_s, worst } from '../record/case.ts';
import { shareOf } from '../record/spans.ts';
import { crowdWords } from './cabinets.ts';
import { type LineUnderLoad, type LineVoltage, lineVoltages } from './line-voltage.ts';
import { lowestMean } from './lowest-mean.ts';
import { cutMeans } from './presence.ts';

interface Lowest {
  readonly line: LineVoltage;
  readonly voltage_ratio: number;
  readonly time_s: number;
}

/** The lowest mean of V/V_n over the row's stay, or over all that is seen where that is less. */
export function readSupplyVoltage(c: Case, limit: Limit): Reading {
  // The unloaded line: headroom is of the deviation from it.
  return { ...readMeans(c, limit, (voltage_ratio) => voltage_ratio), nominal: 1 };
}

/** The same as what it lies below nominal by. */
export function readSupplyFall(c: Case, limit: Limit): Reading {
  return readMeans(c, limit, (voltage_ratio) => 1 - voltage_ratio);
}

function readMeans(c: Case, limit: Limit, told: (voltage_ratio: number) => number): Reading {
  const stay_s = limit.stay_s!;
  const lines = lineVoltages(c);
  const lowest = worst(
    lines.flatMap((line) => lowestIn(line, stay_s)),
    ({ voltage_ratio }) => -voltage_ratio,
  );
  if (lowest === null) return notShown('no feeder carried power in the window');
  const { line } = lowest;
  const reading: Reading = {
    value: told(lowest.voltage_ratio),
    node: line.id,
    time_s: lowest.time_s,
    duration_s: stay_s,
    share_seen: 1 - shareOf(c.result.window, seenNot(c, line)),
    reason: because(c, line),
  };
  return settled(c, limit, reading, lines, ({ voltage_ratio }) => told(voltage_ratio));
}

function lowestIn(line: LineVoltage, stay_s: number): Lowest[] {
  const { voltage, from_s, width_s, spans } = line;
  return spans.flatMap((span) => {
    const piece = cutMeans(voltage, from_s, 1 / width_s, span);
    const found = lowestMean(piece.samples, Math.round(stay_s / width_s));
    if (found === null) return [];
    return [{ line, voltage_ratio: found.mean, time_s: piece.from_s + found.start * width_s }];
  });
}

interface Loaded {
  readonly line: LineVoltage;
  readonly value: number;
  readonly time_s: number;
  /** How often it collapsed. */
  readonly collapses: number;
}

/** The most of what the supply carries that was taken from it; where one collapsed, what was asked of the first then. */
export function readSupplyLoading(c: Case, limit: Limit): Reading {
  const lines = lineVoltages(c);
  const first = worst(
    lines.flatMap((line) => collapseOf(c, line) ?? []),
    ({ time_s }) => -time_s,
  );
  const most = first ?? worst(lines.flatMap(mostLoaded), ({ value }) => value);
  if (most === null) return notShown('no feeder carried power in the window');
  const { line, value, time_s, collapses } = most;
  const seen = { value, node: line.id, time_s, share_seen: 1 - shareOf(c.result.window, seenNot(c, line)) };
  const reason = because(c, line);
  if (collapses > 0) {
    const times = collapses === 1 ? 'it collapsed' : `it collapsed ${collapses} times`;
    return { ...seen, reason: `${reason}, ${times}`, count: collapses, passes: false };
  }
  return settled(c, limit, { ...seen, reason }, lines, ({ loading_ratio }) => loading_ratio);
}

/** Collapses within the window; null where there was none. */
function collapseOf(c: Case, line: LineVoltage): Loaded | null {
  const { from_s, to_s } = c.result.window;
  const found = spansOf(c, ['collapsed'], line.id).filter((span) => span.from_s < to_s && span.to_s > from_s);
  const first = found[0];
  if (first === undefined) return null;
  const collapses = found.reduce((sum, { count }) => sum + count, 0);
  return { line, value: first.amount ?? 1, time_s: first.from_s, collapses };
}

function mostLoaded(line: LineVoltage): Loaded[] {
  const { power_W, before, from_s, width_s, spans } = line;
  return spans.flatMap((span) => {
    const piece = cutMeans(power_W, from_s, 1 / width_s, span);
    const top = before.mostLoaded(piece.samples);
    if (top < 0) return [];
    const value = before.loading_ratio(piece.samples[top]!);
    return [{ line, value, time_s: piece.from_s + top * width_s, collapses: 0 }];
  });
}

/**
 * A load that repeats, or a window of the row's stay, settles it; so does a supply that all shelves at their power limits
 * would not take beyond the limit, whatever the load does.
 */
function settled(
  c: Case,
  limit: Limit,
  reading: Reading,
  lines: readonly LineVoltage[],
  told: (line: LineUnderLoad) => number,
): Reading {
  const stay_s = limit.stay_s ?? lines[0]!.width_s;
  if (repeated(c) !== null || windowLength_s(c) >= stay_s) return reading;
  if (limit.value !== null && lines.every(({ fullest }) => isInside(told(fullest), limit.value!, limit.side)))
    return { ...reading, reason: `${reading.reason}; not beyond it with all shelves at their power limits` };
  const window_s = Number(windowLength_s(c).toPrecision(4));
  return unsettled(reading, `requires ${stay_s} s; the window is ${window_s} s`, 'worse');
}

/** Parts of the window in which the line is not judged. */
function seenNot(c: Case, { spans }: LineVoltage) {
  const { window } = c.result;
  const edges = [window.from_s, ...spans.flatMap(({ from_s, to_s }) => [from_s, to_s]), window.to_s];
  const gaps = [];
  for (let k = 0; k < edges.length; k += 2) gaps.push({ from_s: edges[k]!, to_s: edges[k + 1]! });
  return gaps;
}

function because(c: Case, { id, simulated }: LineVoltage): string {
  const { values } = c.scenario.feeders.find((feeder) => feeder.id === id)!;
  const supply = `on a supply of ${Number((values.short_circuit_power_VA / 1e6).toPrecision(4))} MVA`;
  const crowd = crowdWords(c.scenario);
  const how = simulated ? 'simulated' : 'estimated, for the run had a stiff line';
  return [supply, ...(crowd === null ? [] : [crowd]), how].join(', ');
}
