/** States of a cabinet that its margins are asked in: what may have come to stay, as events say it. */

import { whyUnsettled } from '../../../linear/lasting.ts';
import type { ReadScenario } from '../../../scenario/read.ts';

/** Events without a time, `ac-loss all`; none: as built. */
export type CabinetState = readonly string[];

export interface States {
  readonly asked: readonly CabinetState[];
  readonly not_asked: readonly { readonly state: string; readonly why: string }[];
}

/** One unit of each kind and model out, from the middle of its row; all trays; a link; the tie; batteries carrying, one fewer. */
export function statesOf({
  eventUnits,
  scenario,
  models,
}: Pick<ReadScenario, 'eventUnits' | 'scenario' | 'models'>): States {
  const { tie } = scenario.bars;
  const trays = eventUnits['tray-out'];
  const links = eventUnits['bar-out'].filter((id) => id !== tie?.id);
  const shelves = eventUnits['shelf-trip'];
  const modelOf = (id: string): string => models.get(`shelves.${id}`)?.file ?? '';
  const kinds = [...new Set(shelves.map(modelOf))];
  const batteries = scenario.batteries.map(({ id }) => id);
  const one = (kind: string, units: readonly string[]): CabinetState[] => {
    const middle = units[Math.floor((units.length - 1) / 2)];
    return middle === undefined ? [] : [[`${kind} ${middle}`]];
  };
  const asked: CabinetState[] = [
    [],
    ...kinds.flatMap((kind) =>
      one(
        'shelf-trip',
        shelves.filter((id) => modelOf(id) === kind),
      ),
    ),
    ...one('tray-out', trays),
    ...(trays.length > 1 ? [trays.map((id) => `tray-out ${id}`)] : []),
    ...one('bank-out', eventUnits['bank-out']),
    ...(tie?.closed === true ? [[`bar-out ${tie.id}`]] : []),
    ...(links.length > 1 ? one('bar-out', links) : []),
    ...(batteries.length > 0 ? [['ac-loss all']] : []),
    ...(batteries.length > 1 ? one('battery-fail', batteries).map((state) => ['ac-loss all', ...state]) : []),
  ];
  return {
    asked,
    not_asked: [
      { state: 'walk-in of a shelf (ac-return, shelf-join)', why: `it ${whyUnsettled('shelf-join')}` },
      ...(batteries.length === 0
        ? [{ state: 'batteries carrying (ac-loss all)', why: 'the cabinet has no battery shelves' }]
        : []),
      ...(scenario.feeders.length > 1
        ? [
            {
              state: 'AC lost on one feeder',
              why: 'whether batteries carry beside shelves with AC is for a run to show',
            },
          ]
        : []),
    ],
  };
}

/** A state in words: `as built`, `all trays out`, or its events. */
export function stateName(state: CabinetState): string {
  if (state.length === 0) return 'as built';
  const [first = ''] = state;
  const isTrays = state.length > 2 && state.every((event) => event.startsWith('tray-out '));
  return isTrays ? `${first} and ${state.length - 1} more trays` : state.join(', ');
}
