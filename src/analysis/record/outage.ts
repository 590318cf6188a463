/**
 * What was out, by the record. A scenario that states an outage is judged by the wider, degraded column only where
 * something really was out, and only while it was.
 */
import type { RecordedSpan, Span } from '../../events/spans.ts';
import { reaches } from '../judge/outage-reach.ts';
import { joined } from './spans.ts';
import type { Stated } from './stated.ts';

/** Time after which what left still explains what is seen: bands, sharing and charge find their new rest [s]. */
const after_s = 10;

/**
 * Alterations by which a part is lost whole. Others (coolant that gets warmer, a battery that is late) may be as small
 * as one likes: that they amount to an outage is stated, not shown.
 */
const losses: ReadonlySet<string> = new Set(['module-out', 'tray-stuck', 'battery-fail', 'phase-loss']);

/** Sleds that are off are less load: nothing that supplies it is out. */
const lessLoad: ReadonlySet<string> = new Set(['switched off', 'cut off', 'fuse cleared']);

export interface Outage {
  /**
   * `real`: a unit, bar or feeder was out. `altered`: parameters or signals were altered and nothing was out.
   * `none`: nothing of these.
   */
  readonly kind: 'real' | 'altered' | 'none';
  /** Units that were out or altered, each once. */
  readonly who: readonly string[];
  /** When, each with the time after it. */
  readonly spans: readonly Span[];
  /** When what may explain a limit's quantity was out. */
  spansFor(quantity: string): readonly Span[];
}

export function outageOf(
  scenario: Pick<Stated, 'bars' | 'banks' | 'batteries'>,
  spans: readonly RecordedSpan[],
  window: Span,
): Outage {
  const opened = [...scenario.bars.links, ...(scenario.bars.tie == null ? [] : [scenario.bars.tie])]
    .filter(({ closed }) => closed === false)
    .map(({ id }) => ({ who: id, ...window }));
  const real = [...opened, ...spans.filter(isReal)];
  const altered = spans.filter(({ kind }) => kind === 'altered');
  const found = real.length > 0 ? real : altered;
  const lasting = found.map(({ who, from_s, to_s }) => ({ who, from_s, to_s: to_s + after_s }));
  return {
    kind: real.length > 0 ? 'real' : altered.length > 0 ? 'altered' : 'none',
    who: [...new Set(found.map(({ who }) => who))],
    spans: joined(lasting),
    spansFor: (quantity) => joined(lasting.filter(({ who }) => reaches(scenario, who, quantity))),
  };
}

function isReal({ kind, what }: RecordedSpan): boolean {
  if (kind === 'altered') return losses.has(what);
  return (kind === 'out' && !lessLoad.has(what)) || kind === 'short' || kind === 'ac-lost';
}
