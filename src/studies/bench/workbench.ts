/** How each kind of trial is carried out, and what a thread keeps from one to the next. */
import { drivenOf } from '../duty/driven.ts';
import { CellWorkshop, empty } from '../gains/cell.ts';
import { inject } from '../response/inject/inject.ts';
import { marginsAt, unsettled } from '../response/margins-at.ts';
import { respond } from '../response/respond.ts';
import { watchSharing } from '../share/watch.ts';
import type { Done, Trial, TrialKind } from '../trials/trial.ts';
import { placed, simulated } from './measured.ts';
import { orWhyNot, runWhole } from './run-whole.ts';
import type { Shelf } from './shelf.ts';

type CarryOut<K extends TrialKind> = (trial: Trial<K>) => Done<K>;

export class Workbench {
  readonly #kinds: { readonly [K in TrialKind]: CarryOut<K> };

  constructor(shelf: Shelf) {
    const cells = new CellWorkshop();
    this.#kinds = {
      run: (trial) => ({ kind: 'run', outcome: runWhole(shelf, trial).outcome }),
      cell: (trial) => {
        const { scenario } = shelf.read(trial);
        return {
          kind: 'cell',
          outcome: orWhyNot(() => cells.cell(scenario, trial.load_W, trial.state_count ?? 0), empty),
        };
      },
      response: (trial) => ({ kind: 'response', outcome: respond(shelf.read(trial).scenario, trial) }),
      margins: (trial) => {
        const { scenario } = shelf.read(trial);
        return { kind: 'margins', outcome: orWhyNot(() => marginsAt(scenario, trial), unsettled) };
      },
      injected: (trial) => ({ kind: 'injected', outcome: inject(shelf.read(trial).scenario, trial) }),
      place: (trial) => ({ kind: 'place', outcome: placed(shelf, trial) }),
      simulated: (trial) => ({ kind: 'simulated', outcome: simulated(shelf, trial) }),
      drive: (trial) => ({
        kind: 'drive',
        outcome: drivenOf(runWhole(shelf, trial), (scenario) => shelf.recordingOf(scenario)),
      }),
      share: (trial) => ({ kind: 'share', outcome: watchSharing(shelf.read(trial).scenario, trial) }),
    };
  }

  /** Throws BadInput where scenario or changes are wrong. */
  carryOut<K extends TrialKind>(trial: Trial<K>): Done<K> {
    return this.#kinds[trial.kind](trial);
  }
}
