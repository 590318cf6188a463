/** A controller of the user's own that failed: the user's file, never a mistake of the simulator. */
import { BadInput } from '../../base/problem.ts';

/** Where in the user's file, as far as it is known (1-based). */
export interface FaultPlace {
  readonly line?: number;
  readonly column?: number;
}

export class ControllerFault extends BadInput {
  /** `time_s`: simulated time of the call; null while it is loaded or asked for its rest. */
  constructor(
    file: string,
    replaces: string,
    place: FaultPlace,
    found: string,
    time_s: number | null,
    expected = 'a controller as src/firmware/user/contract.ts describes it',
  ) {
    super([
      {
        severity: 'error',
        file,
        ...place,
        path: `controllers, replaces ${replaces}`,
        ...(time_s === null ? {} : { at_s: time_s }),
        found: time_s === null ? found : `${found}, at ${Number(time_s.toPrecision(9))} s of the run`,
        expected,
        mend: 'correct the module; the simulator is not at fault',
      },
    ]);
    this.name = 'ControllerFault';
  }
}
