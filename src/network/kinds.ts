/**
 * The kinds of devices of a cabinet, listed once: in the order of the state vector, which is also that in which they take
 * each turn of a step. What loops over them (step, node voltages at rest, gauge, audit, modes) knows none by name.
 */
import { BankBooks } from '../devices/bank/bank-books.ts';
import { BankCompanion } from '../devices/bank/bank-companion.ts';
import { BankReadout } from '../devices/bank/bank-readout.ts';
import { BarBooks } from '../devices/bar/bar-books.ts';
import { BarCompanion } from '../devices/bar/bar-companion.ts';
import { BarReadout } from '../devices/bar/bar-readout.ts';
import { CapacitorBooks } from '../devices/capacitor/capacitor-books.ts';
import { CapacitorCompanion } from '../devices/capacitor/capacitor-companion.ts';
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
  StageCompanion,
  IntakeCompanion,
  TrayCompanion,
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

export function correctedOf([
  ,
  ,
  ,
  stages,
  ,
  trays,
  sleds,
  ,
  ,
  suppressors,
]: Companions): CorrectedCompanions {
  return [stages, trays, sleds, suppressors];
}

export function companionsOf(network: Network): Companions {
  return [
    new BarCompanion(network.bars),
    new CapacitorCompanion(network.capacitors),
    new BankCompanion(network.banks),
    new StageCompanion(network.stages),
    new IntakeCompanion(network.intakes),
    new TrayCompanion(network.trays),
    new SledCompanion(network.sleds),
    new PackCompanion(network.packs),
    new SensorCompanion(network.sensor),
    new SuppressorCompanion(network.suppressors),
  ];
}

/** What shows of each kind that shows something. */
export type Readouts = readonly [
  BarReadout,
  StageReadout,
  IntakeReadout,
  TrayReadout,
  BankReadout,
  PackReadout,
  SledReadout,
  SuppressorReadout,
];

export function readoutsOf(network: Network): Readouts {
  const { barPieces, stages, shelfCount } = network;
  const shown = barPieces.flatMap(({ role }, k) => (role === 'contact' ? [] : [k]));
  return [
    new BarReadout(network.bars, Int32Array.from(shown)),
    new StageReadout(stages, shelfCount),
    new IntakeReadout(network.intakes),
    new TrayReadout(network.trays),
    new BankReadout(network.banks),
    new PackReadout(network.packs),
    new SledReadout(network.sleds),
    new SuppressorReadout(network.suppressors),
  ];
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
];

export function booksOf(network: Network, readouts: Readouts): AllBooks {
  const { bars, capacitors, banks, stages, intakes, trays, packs, sleds } = network;
  const [, , , trayReadout, , , sledReadout] = readouts;
  return [
    new IntakeBooks(intakes, stages),
    new TrayBooks(trays, trayReadout),
    new PackBooks(packs, stages),
    new BarBooks(bars),
    new BankBooks(banks),
    new CapacitorBooks(capacitors),
    new SledBooks(sleds, sledReadout),
    new SuppressorBooks(network.suppressors),
  ];
}
