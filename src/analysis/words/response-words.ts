/** The responses of a run in words: a row a unit, the same on the terminal and the page. */
import { counted } from '../../base/counted.ts';
import type { Answering } from '../responses/responses.ts';
import type { Excursion, Responses, Settled, UnitResponse } from '../responses/summary.ts';
import { numberText } from './number-text.ts';

export const responseHead = [
  'unit',
  'overshoot',
  'undershoot',
  'within 5 %',
  'within 2 %',
  'at a limit',
] as const;

const shown = 3;

/** What the rows are of; null where there is none to show. */
export function responsesHeading({ steps_count, resolution_s }: Responses): string | null {
  if (steps_count === 0 || resolution_s === null) return null;
  const worst = steps_count === 1 ? '' : ', the worst of them';
  return `Responses to ${counted(steps_count, 'edge or event', 'edges and events')}${worst}; times to ${numberText(resolution_s, 's', shown)}; limits: of the judged window`;
}

export const noResponses = 'No response: no edge or event with enough of the run before and after it.';

/** Units that neither moved nor met a limit are counted in one row for each kind. */
export function responseRows({ units }: Responses): string[][] {
  const isIdle = (one: UnitResponse): boolean => one.moved_count === 0 && one.at_limit.length === 0;
  const idle = new Map<Answering, number>();
  for (const one of units) if (isIdle(one)) idle.set(one.kind, (idle.get(one.kind) ?? 0) + 1);
  return [
    ...alike(units.filter((one) => !isIdle(one))),
    ...[...idle].map(([kind, count]) => [still(kind, count), '', '', '', '', '']),
  ];
}

/** Units of a kind in a row that read alike stand in one row. */
function alike(units: readonly UnitResponse[]): string[][] {
  const rows: { readonly first: UnitResponse; last: UnitResponse; readonly cells: readonly string[] }[] = [];
  for (const one of units) {
    const cells = cellsOf(one);
    const before = rows.at(-1);
    if (before?.first.kind === one.kind && before.cells.every((cell, k) => cell === cells[k]))
      before.last = one;
    else rows.push({ first: one, last: one, cells });
  }
  return rows.map(({ first, last, cells }) => [nameOf(first, last), ...cells]);
}

function nameOf(first: UnitResponse, last: UnitResponse): string {
  const names = first === last ? first.unit : `${first.unit} to ${last.unit}`;
  const name = first.kind === 'bus' ? `bus at ${names}` : names;
  return first.moved_count === 0 ? `${name}: still` : name;
}

function still(kind: Answering, count: number): string {
  if (kind === 'bus') return 'the bus: still';
  return `${counted(count, kind, kind.endsWith('f') ? `${kind.slice(0, -1)}ves` : `${kind}s`)}: still`;
}

function cellsOf(one: UnitResponse): string[] {
  return [
    excursion(one.overshoot, one.quantity),
    excursion(one.undershoot, one.quantity),
    settling(one.settling_5),
    settling(one.settling_2),
    one.at_limit
      .map(({ limit, share_ratio }) => `${limit} ${numberText(share_ratio, 'ratio', 2)}`)
      .join(', '),
  ];
}

/** With its ratio where the quantity ends elsewhere than it began. */
function excursion(found: Excursion | null, unit: string): string {
  if (found === null) return '';
  const ratio = found.ratio === null ? 'comes back' : numberText(found.ratio, 'ratio', shown);
  return `${numberText(found.value, unit, shown)} (${ratio})`;
}

function settling(found: Settled | null): string {
  if (found === null) return '';
  return found.time_s === null ? 'not settled' : numberText(found.time_s, 's', shown);
}
