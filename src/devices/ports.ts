/**
 * The ports of all device kinds: what can be sensed of a device, by name, what it can be commanded, and the jumps of its
 * states. Whoever holds ports knows no state by its place, no node, and no device. Bound to one plant, whose present
 * moment they look at.
 */
import type { Bars } from './bar/bar.ts';
import { BarPorts } from './bar/bar-ports.ts';
import type { Capacitors } from './capacitor/capacitor.ts';
import { CapacitorPorts } from './capacitor/capacitor-ports.ts';
import type { Display } from './display/display.ts';
import { DisplayPorts } from './display/display-ports.ts';
import type { Intakes } from './intake/intake.ts';
import { IntakePorts } from './intake/intake-ports.ts';
import type { Packs } from './pack/pack.ts';
import { PackPorts } from './pack/pack-ports.ts';
import type { Plant } from './plant.ts';
import type { Sensor } from './sensor/sensor.ts';
import { SensorPorts } from './sensor/sensor-ports.ts';
import type { Sleds } from './sled/sled.ts';
import { SledPorts } from './sled/sled-ports.ts';
import type { Stages } from './stage/stage.ts';
import { StagePorts } from './stage/stage-ports.ts';
import type { Supplies } from './supply/supply.ts';
import { SupplyPorts } from './supply/supply-ports.ts';
import type { Trays } from './tray/tray.ts';
import { TrayPorts } from './tray/tray-ports.ts';

export interface Ports {
  /** Output stages of the rectifier shelves, and of the battery shelves. */
  readonly shelves: StagePorts;
  readonly batteries: StagePorts;
  /** AC sides of the rectifier shelves, one for each of `shelves`; packs, one for each of `batteries`. */
  readonly intakes: IntakePorts;
  /** Lines of the feeders that give way. */
  readonly supplies: SupplyPorts;
  readonly packs: PackPorts;
  readonly trays: TrayPorts;
  readonly sensor: SensorPorts;
  readonly sleds: SledPorts;
  readonly bars: BarPorts;
  readonly capacitors: CapacitorPorts;
  readonly display: DisplayPorts;
}

/** The kinds that have ports. */
export interface Ported {
  readonly stages: Stages;
  readonly intakes: Intakes;
  readonly supplies: Supplies;
  readonly packs: Packs;
  readonly trays: Trays;
  readonly sensor: Sensor;
  readonly sleds: Sleds;
  readonly bars: Bars;
  readonly capacitors: Capacitors;
  readonly display: Display;
}

export function portsOf(devices: Ported, plant: Plant): Ports {
  const { stages, intakes, supplies, packs, trays, sensor, sleds, bars, capacitors, display } = devices;
  return {
    shelves: new StagePorts(stages, 0, intakes.count, plant),
    batteries: new StagePorts(stages, packs.firstStage, packs.count, plant),
    intakes: new IntakePorts(intakes, plant),
    supplies: new SupplyPorts(supplies, plant),
    packs: new PackPorts(packs, plant),
    trays: new TrayPorts(trays, plant),
    sensor: new SensorPorts(sensor, plant),
    sleds: new SledPorts(sleds, plant),
    bars: new BarPorts(bars, plant),
    capacitors: new CapacitorPorts(capacitors, plant),
    display: new DisplayPorts(display),
  };
}
