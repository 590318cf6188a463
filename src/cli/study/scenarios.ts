/** Scenarios as the studies of this process read them, each file once. */

import { DiskSource } from '../../bundle/disk-source.ts';
import type { KeptInput } from '../../bundle/format.ts';
import type { Files } from '../../scenario/text/desk.ts';
import { Shelf } from '../../studies/bench/shelf.ts';
import type { ReadMeasured } from '../../studies/fit/plan.ts';
import type { ReadChanged } from '../../studies/trials/trial.ts';

const disk = new DiskSource({ keeps: true });

export const shelf: Shelf = new Shelf(disk);

export const readMeasured: ReadMeasured = (asked, scenario) => shelf.measurement(asked, scenario);

export const readChanged: ReadChanged = (of) => shelf.read(of);

/** The text of a file, standard input for `-`, as everything that reads it gets it. */
export const readFile: Files = (path) => shelf.text(path);

/** Every file that was read for a plan, as it is kept with a study. Throws BadInput where one changed since. */
export function keptInputs(): readonly KeptInput[] {
  return disk.kept();
}
