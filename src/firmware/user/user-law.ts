/** A law of the user's own in its enclosure: what every kind remembers and lets be seen. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import { Enclosure, type InputKinds } from './enclosure.ts';

export abstract class UserLaw {
  protected readonly enclosure: Enclosure;

  /** `units`: in whose order numbers go out; `kinds`: what the module is given for each call. Throws ControllerFault. */
  constructor(spec: ControllerSpec, setup: object, units: readonly string[], kinds: InputKinds) {
    this.enclosure = new Enclosure(spec, setup, units, kinds);
  }

  get memory(): Float64Array {
    return this.enclosure.memory;
  }

  get memoryNames(): readonly string[] {
    return this.enclosure.memoryNames;
  }

  /** Numbers that it lets be seen, as its last call left them. */
  get shown(): Float64Array {
    return this.enclosure.shown;
  }
}
