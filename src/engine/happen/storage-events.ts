/** What happens to trays and banks. */
import { openingTime_s } from '../../devices/bar/bar.ts';
import { fastCapacitance_F, slowBranchOf } from '../../scenario/derived/slow-branch.ts';
import { alters } from './alters.ts';
import { type Handler, type Happening, isFirst, reached } from './happening.ts';
import { levelNode } from './level-node.ts';

/**
 * A branch that stands for an open one: its current dies with the opening time, what is left is next to nothing. Values for
 * 50 V; at another voltage impedances with its square, so that what is left stays as small beside the power.
 */
const open = { nominal_V: 50, inductance_H: 0.01, capacitance_F: 1e-3 } as const;

/** A capacitance that no current charges within a run: a short. */
const endless_F = 1e12;

/** Changes bank k, of whose slow branch the share `left` is left, and books what its energy loses by it. */
function change(happening: Happening, k: number, left: number, make: () => void): void {
  const { network, stepper, removed } = happening;
  const { banks, bankBranches, scenario } = network;
  const { values } = scenario.banks[k]!;
  const branch = bankBranches.columns.host.indexOf(k);
  const held_J = (): number =>
    banks.energy_J(k, stepper.x0) + (branch < 0 ? 0 : bankBranches.energy_J(branch, stepper.x0));
  const before_J = held_J();
  make();
  if (branch >= 0) {
    const { slow_F, conductance_S } = slowBranchOf(values);
    // What is cut off keeps a capacitance that nothing moves, and no energy.
    if (left === 0) stepper.x0[bankBranches.place('voltage_V', branch)] = 0;
    else bankBranches.columns.capacitance_F[branch] = left * slow_F;
    bankBranches.columns.conductance_S[branch] = left * conductance_S;
  }
  removed(`bank ${banks.names[k]}`, before_J - held_J());
  stepper.restamp();
  levelNode(network, stepper, banks.node[k]!);
}

/** Opens bank k whole. */
function openWhole(happening: Happening, k: number, what: 'opened' | 'burnt open'): void {
  const { network, log } = happening;
  const { banks, scenario } = network;
  const impedance = (scenario.nominal_V / open.nominal_V) ** 2;
  log.ends('short', banks.names[k]!);
  log.becomes('out', banks.names[k]!, what);
  change(happening, k, 0, () => {
    banks.capacitance_F[k] = open.capacitance_F / impedance;
    banks.inductance_H[k] = open.inductance_H * impedance;
    banks.resistance_ohm[k] = banks.inductance_H[k]! / openingTime_s;
  });
}

export const storageEvents = {
  'tray-out': ({ event, network, controls, log }) => {
    log.note(event.unit, 'event', 'is taken out');
    controls.smoothing.drop(network.trays.names.indexOf(event.unit));
  },
  'tray-stuck': (happening) => {
    const { event, along, network, controls, log } = happening;
    const k = network.trays.names.indexOf(event.unit);
    const stuck = `sticks at ${(event.amount! / 1e3).toFixed(1)} kW whatever it is told`;
    log.note(event.unit, 'event', along > 0 ? stuck : 'obeys again');
    const stuck_W = along > 0 ? event.amount! : null;
    controls.smoothing.commands.stick(k, stuck_W);
    alters(happening, event.unit, network.trays.alive[k] ? stuck_W : null, null);
  },
  'charge-shift': (happening) => {
    const { event, along, network, controls, log } = happening;
    const k = network.trays.names.indexOf(event.unit);
    const shift = reached(happening, 0);
    controls.smoothing.charge.shift[k] = shift;
    alters(happening, event.unit, shift, 0);
    if (isFirst(happening)) {
      const by = `${event.amount! >= 0 ? '+' : ''}${(event.amount! * 100).toFixed(1)} %`;
      log.note(event.unit, 'event', `its measured charge is off by ${by} of the window`);
    } else if (along === 0) log.note(event.unit, 'event', 'measures its charge right again');
  },
  'bank-out': (happening) => {
    const { event, network, log } = happening;
    const { banks, scenario } = network;
    const k = banks.names.indexOf(event.unit);
    const gone = event.amount!;
    const { values } = scenario.banks[k]!;
    const { capacitance_F, esr_ohm, connection_ohm } = values;
    log.ends('short', event.unit);
    if (gone === 1) openWhole(happening, k, 'opened');
    else {
      log.ends('out', event.unit);
      alters(happening, event.unit, gone, 0);
      change(happening, k, 1 - gone, () => {
        banks.capacitance_F[k] = (1 - gone) * fastCapacitance_F(values);
        banks.resistance_ohm[k] = esr_ohm / (1 - gone) + connection_ohm;
      });
    }
    const left = `${((1 - gone) * capacitance_F * 1e3).toFixed(1)} mF left`;
    log.note(event.unit, 'event', gone === 1 ? 'opens: all of it gone' : `strings open: ${left}`);
  },
  'bank-short': (happening) => {
    const { event, along, network, stepper, log } = happening;
    const { banks } = network;
    const k = banks.names.indexOf(event.unit);
    if (along === 0) {
      openWhole(happening, k, 'burnt open');
      log.note(event.unit, 'event', 'burns open: the bank is gone');
      return;
    }
    change(happening, k, 0, () => {
      banks.capacitance_F[k] = endless_F;
      stepper.x0[banks.place('voltage_V', k)] = 0;
    });
    log.begins('short', event.unit, '');
    log.note(event.unit, 'event', `shorts: the bus feeds ${(banks.resistance_ohm[k]! * 1e3).toFixed(2)} mΩ`);
  },
} satisfies Readonly<Record<string, Handler>>;
