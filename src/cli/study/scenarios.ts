/** Scenarios as the studies of this process read them, each file once. */

import { Shelf } from '../../studies/bench/shelf.ts';
import type { ReadMeasured } from '../../studies/fit/plan.ts';
import type { ReadChanged } from '../../studies/trials/trial.ts';

export const shelf: Shelf = new Shelf();

export const readMeasured: ReadMeasured = (asked, scenario) => shelf.measurement(asked, scenario);

export const readChanged: ReadChanged = (of) => shelf.read(of);
