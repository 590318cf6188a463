/** Bus voltage against duration, while batteries carry and while they do not. */
import type { Limit } from '../../limits/limit.ts';
import { type Case, extremeOf, type Ran, repeated, spansOf, windowLength_s } from '../record/case.ts';
import { carrySpans, extremeClearOf } from '../record/clear-extremes.ts';
import { once } from '../record/once.ts';
import { without } from '../record/spans.ts';
import { type NodeExtreme, readStay } from '../record/stays.ts';
import { cutAt, staysWithoutEnd } from '../record/stays-without-end.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

export function readBusStay(c: Case, limit: Limit): Reading {
  const { stays } = c.result;
  if (limit.value === null) return cannotArise('the row states no level at which stays would count');
  const stay_s = limit.stay_s ?? 0;
  const carries = limit.column === 'carry';
  const watched_s = carries ? stays.carry_s : windowLength_s(c) - stays.carry_s;
  const reading = readStay(staysWithoutEnd(c), stays, limit, limit.value, c.noLoad_V, (node) =>
    nodeExtreme(c, node, limit.column),
  );
  // Too short to show such a stay, but one that goes on beyond the window is long enough.
  if (watched_s <= stay_s && repeated(c) === null && reading.passes !== false) {
    const goesOn = carries
      ? spansOf(c, ['carrying']).some(({ open }) => open)
      : windowLength_s(c) <= stay_s || stays.carry_s === 0;
    const state = carries ? 'batteries carry for' : 'the window without carrying is';
    const reason = `a stay of ${stay_s} s needs more time: ${state} ${Number(watched_s.toPrecision(4))} s`;
    return goesOn ? notShown(reason) : cannotArise(reason);
  }
  const share_seen = watched_s / windowLength_s(c);
  const seen = stays.carry_s === 0 ? reading : { ...reading, share_seen };
  const cut = reading.passes === true ? cutAt(c, limit) : null;
  return cut === null ? seen : unsettled(seen, cutWords[cut], 'worse');
}

const cutWords = {
  begin: 'a node was beyond it already when the window began, and how long is not known',
  end: 'a node was still beyond it when the window ended, and may stay',
} as const;

/** While batteries carry the bus may lie elsewhere: each column sees the extremes of its own time. */
function nodeExtreme({ ran }: Case, node: string, column: Limit['column']): NodeExtreme | null {
  const carries = column === 'carry';
  const { known, carried, others } = nodesOf(ran);
  const name = `${carries} ${node}`;
  const before = known.get(name);
  if (before !== undefined) return before;
  const id = `${node}.voltage_V`;
  const index = ran.result.recording.channels.findIndex((channel) => channel.id === id);
  // A bucket across the change counts for neither; the stays themselves are exact.
  const clear =
    ran.result.stays.carry_s === 0
      ? extremeOf(ran.result, id)
      : index < 0
        ? null
        : (extremeClearOf(ran, index, carries ? others : carried) ?? extremeOf(ran.result, id));
  known.set(name, clear);
  return clear;
}

/** When batteries carry and when not, and what was read of the nodes there. */
const nodesOf = once((ran: Ran) => {
  const carried = carrySpans(ran);
  const others = without(ran.result.window, carried);
  return { carried, others, known: new Map<string, NodeExtreme | null>() };
});
