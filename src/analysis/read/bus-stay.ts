/** Bus voltage against duration, while batteries carry and while they do not. */
import type { Limit } from '../../limits/limit.ts';
import { type Case, extremeOf, type Ran, repeated, spansOf, windowLength_s } from '../record/case.ts';
import { carrySpans, extremeClearOf } from '../record/clear-extremes.ts';
import { once } from '../record/once.ts';
import { without } from '../record/spans.ts';
import { type NodeExtreme, readStay } from '../record/stays.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

export function readBusStay(c: Case, limit: Limit): Reading {
  const { stays } = c.result;
  if (limit.value === null) return cannotArise('the row states no level at which stays would count');
  const stay_s = limit.stay_s ?? 0;
  const carries = limit.column === 'carry';
  const watched_s = carries ? stays.carry_s : windowLength_s(c) - stays.carry_s;
  const endless = repeated(c) !== null;
  if (watched_s <= stay_s && !endless) {
    const goesOn = carries
      ? spansOf(c, ['carrying']).some(({ open }) => open)
      : windowLength_s(c) <= stay_s || stays.carry_s === 0;
    const state = carries ? 'batteries carry for' : 'the window without carrying is';
    const reason = `a stay of ${stay_s} s needs more time: ${state} ${Number(watched_s.toPrecision(4))} s`;
    return goesOn ? notShown(reason) : cannotArise(reason);
  }
  const reading = readStay(stays, limit, limit.value, c.noLoad_V, (node) =>
    nodeExtreme(c, node, limit.column),
  );
  const share_seen = watched_s / windowLength_s(c);
  const seen = stays.carry_s === 0 ? reading : { ...reading, share_seen };
  if (endless || reading.passes !== true || !isOpen(c, limit)) return seen;
  return unsettled(seen, 'a node was still beyond it when the window ended, and may stay', 'worse');
}

/** Some node lies beyond the limit's level at the end of the window. */
function isOpen({ result: { stays } }: Case, limit: Limit): boolean {
  const table = limit.column === 'carry' ? stays.carry : stays.normal;
  const open = limit.side === 'lower' ? table.belowOpen : table.aboveOpen;
  const level = stays.levels_V.indexOf(limit.value!);
  return stays.nodes.some((_, n) => open[n * stays.levels_V.length + level] === 1);
}

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
