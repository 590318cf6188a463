/** What a loss of coolant does to the units it cools: each derates to a share of its rated power. */
import { alters } from './alters.ts';
import { columnsOf, type Handler, isFirst, reached } from './happening.ts';

export const coolantEvents = {
  'coolant-loss': (happening) => {
    const { event, along, network, controls, log } = happening;
    const { intakes, trays, packs, stages, scenario } = network;
    const { limits } = controls.shelfGuard;
    const share = reached(happening, 1);
    const percent = (100 * event.amount!).toFixed(0);
    const tell = (unit: string): void => {
      alters(happening, unit, share, 1);
      if (along === 0) log.note(unit, 'cooled', 'coolant is back: no longer derated');
      else if (isFirst(happening)) {
        const over = event.over_s === null ? '' : ` over ${event.over_s} s`;
        log.note(unit, 'derated', `loses its coolant: derates to ${percent} % of its power${over}`);
      }
    };
    for (const k of columnsOf(happening, intakes.names)) {
      limits.derated[k] = share;
      limits.apply(k);
      tell(intakes.names[k]!);
    }
    for (const k of columnsOf(happening, trays.names)) {
      trays.columns.power_limit_W[k] = share * scenario.trays[k]!.values.power_limit_W;
      tell(trays.names[k]!);
    }
    for (const k of columnsOf(happening, packs.names)) {
      const { values } = scenario.batteries[k]!;
      const stage = packs.firstStage + k;
      const limit_A = share * values.current_limit_ratio * stages.columns.rated_A[stage]!;
      stages.limit0_A[stage] = limit_A;
      stages.limit1_A[stage] = limit_A;
      tell(packs.names[k]!);
    }
  },
} satisfies Readonly<Record<string, Handler>>;
