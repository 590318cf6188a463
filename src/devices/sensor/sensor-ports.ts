/** What the trays' measuring filter shows. */
import type { Plant } from '../plant.ts';
import type { Sensor } from './sensor.ts';

export class SensorPorts {
  private readonly sensor: Sensor;
  private readonly plant: Plant;

  constructor(sensor: Sensor, plant: Plant) {
    this.sensor = sensor;
    this.plant = plant;
  }

  /** Filtered power of all sources [W]. */
  sources_W(): number {
    return this.plant.x[this.sensor.offset]!;
  }

  /** Filtered power of all trays [W]. */
  trays_W(): number {
    return this.plant.x[this.sensor.offset + 1]!;
  }

  /** Power of all trays at this moment, past the filter [W]. */
  traysUnfiltered_W(): number {
    return this.sensor.trays_W(this.plant.x, this.plant.v);
  }
}
