/**
 * The kinds of devices of a cabinet, listed once, in the order in which they take each turn of a step. What loops over them (step, node voltages at rest, gauge, audit, modes) knows none by name.
 */
import { BankBooks } from '../devices/bank/bank-books.ts';
import { BankCompanion } from '../devices/bank/bank-companion.ts';
import { BankReadout } from '../devices/bank/bank-readout.ts';
import { BarBooks } from '../devices/bar/bar-books.ts';
import { BarCompanion } from '../devices/bar/bar-companion.ts';
import { BarReadout } from '../devices/bar/bar-readout.ts';
import { BankBranchCompanion } from '../devices/branch/bank-branch-companion.ts';
import { BranchBooks } from '../devices/branch/branch-books.ts';
import { TrayBranchCompanion } from '../devices/branch/tray-branch-companion.ts';
import { CapacitorBooks } from '../devices/capacitor/capacitor-books.ts';
import { CapacitorCompanion } from '../devices/capacitor/capacitor-companion.ts';
import { DisplayReadout } from '../devices/display/display-readout.ts';
import { IntakeBooks } from '../devices/intake/intake-books.ts';
import { IntakeCompanion } from '../devices/intake/intake-companion.ts';
import { IntakeReadout } from '../devices/intake/intake-readout.ts';
import { PackBooks } from '../devices/pack/pack-books.ts';
import { PackCompanion } from '../devices/pack/pack-companion.ts';
import { PackReadout } from '../devices/pack/pack-readout.ts';
import { SensorCompanion } from '../devices/sensor/sensor-companion.ts';
import { SledBooks } from '../devices/sled/sled-books.ts';
import { SledCompanion } from '../devices/sled/sled-companion.ts';
import { SledReadout } from '../devices/sled/sled-readout.ts';
import { StageCompanion } from '../devices/stage/stage-companion.ts';
import { StageReadout } from '../devices/stage/stage-readout.ts';
import { SupplyCompanion } from '../devices/supply/supply-companion.ts';
import { SupplyReadout } from '../devices/supply/supply-readout.ts';
import { SuppressorBooks } from '../devices/suppressor/suppressor-books.ts';
import { SuppressorCompanion } from '../devices/suppressor/suppressor-companion.ts';
import { SuppressorReadout } from '../devices/suppressor/suppressor-readout.ts';
import { TrayBooks } from '../devices/tray/tray-books.ts';
import { TrayCompanion } from '../devices/tray/tray-companion.ts';
import { TrayReadout } from '../devices/tray/tray-readout.ts';
import type { Network } from './network.ts';

/** What a step of one length takes of each kind. */
export type Companions = readonly [
  BarCompanion,
  CapacitorCompanion,
  BankCompanion,
  BankBranchCompanion,
  SupplyCompanion,
  IntakeCompanion,
  StageCompanion,
  TrayCompanion,
  TrayBranchCompanion,
  SledCompanion,
  PackCompanion,
  SensorCompanion,
  SuppressorCompanion,
];

/** Those of them that a solve corrects. */
export type CorrectedCompanions = readonly [
  StageCompanion,
  TrayCompanion,
  SledCompanion,
  SuppressorCompanion,
];

export interface AllCompanions {
  readonly companions: Companions;
  readonly corrected: CorrectedCompanions;
}

export function companionsOf(network: Network): AllCompanions {
  const { at } = network.currents;
  const banks = new BankCompanion(network.banks, at.banks);
  const intakes = new IntakeCompanion(network.intakes);
  const stages = new StageCompanion(network.stages, at.stages);
  const trays = new TrayCompanion(network.trays, at.trays);
  const sleds = new SledCompanion(network.sleds, at.sleds);
  const suppressors = new SuppressorCompanion(network.suppressors, at.suppressors);
  return {
    companions: [
      new BarCompanion(network.bars, at.bars, network.ordering),
      new CapacitorCompanion(network.capacitors, at.capacitors),
      banks,
      // After the banks, and after the trays, what stands beside them.
      new BankBranchCompanion(network.bankBranches, banks),
      // Before the intakes, whose line they give; these before the stages, whose limits they give.
      new SupplyCompanion(network.supplies, intakes),
      intakes,
      stages,
      trays,
      new TrayBranchCompanion(network.trayBranches),
      sleds,
      new PackCompanion(network.packs),
      new SensorCompanion(network.sensor),
      suppressors,
    ],
    corrected: [stages, trays, sleds, suppressors],
  };
}

/** What shows of each kind that shows something. */
export type Readouts = readonly [
  BarReadout,
  StageReadout,
  IntakeReadout,
  SupplyReadout,
  TrayReadout,
  BankReadout,
  PackReadout,
  SledReadout,
  SuppressorReadout,
  DisplayReadout,
];

/** All of them, and by name those that others read too: the audit, and sums over the cabinet. */
export interface AllReadouts {
  readonly readouts: Readouts;
  readonly intakes: IntakeReadout;
  readonly trays: TrayReadout;
  readonly sleds: SledReadout;
}

export function readoutsOf(network: Network): AllReadouts {
  const { barPieces, stages, shelfCount } = network;
  const shown = barPieces.flatMap(({ role }, k) => (role === 'contact' ? [] : [k]));
  const intakes = new IntakeReadout(network.intakes);
  const trays = new TrayReadout(network.trays);
  const sleds = new SledReadout(network.sleds);
  return {
    readouts: [
      new BarReadout(network.bars, Int32Array.from(shown)),
      new StageReadout(stages, shelfCount),
      intakes,
      new SupplyReadout(network.supplies),
      trays,
      new BankReadout(network.banks),
      new PackReadout(network.packs),
      sleds,
      new SuppressorReadout(network.suppressors),
      new DisplayReadout(network.display),
    ],
    intakes,
    trays,
    sleds,
  };
}

/** The books of each kind that holds or passes on energy, in the order in which the audit has them: converters, then copper. */
export type AllBooks = readonly [
  IntakeBooks,
  TrayBooks,
  PackBooks,
  BarBooks,
  BankBooks,
  CapacitorBooks,
  SledBooks,
  SuppressorBooks,
  BranchBooks,
  BranchBooks,
];

export function booksOf(network: Network, shown: Pick<AllReadouts, 'trays' | 'sleds'>): AllBooks {
  const { bars, capacitors, banks, stages, intakes, trays, packs, sleds } = network;
  return [
    new IntakeBooks(intakes, stages),
    new TrayBooks(trays, shown.trays),
    new PackBooks(packs, stages),
    new BarBooks(bars),
    new BankBooks(banks),
    new CapacitorBooks(capacitors),
    new SledBooks(sleds, shown.sleds),
    new SuppressorBooks(network.suppressors),
    new BranchBooks(network.trayBranches),
    new BranchBooks(network.bankBranches),
  ];
}
