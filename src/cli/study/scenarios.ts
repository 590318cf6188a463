/** Scenarios as the studies of a command read them, each file once. */

import { DiskSource } from '../../bundle/disk-source.ts';
import type { KeptInput } from '../../bundle/format.ts';
import type { Files } from '../../scenario/text/desk.ts';
import { Shelf } from '../../studies/bench/shelf.ts';
import type { ReadMeasured } from '../../studies/fit/plan.ts';
import type { ReadChanged } from '../../studies/trials/trial.ts';
import { thisCommand } from '../this-command.ts';

interface Desk {
  readonly command: number;
  readonly disk: DiskSource;
  readonly shelf: Shelf;
}

let made: Desk | null = null;

function desk(): Desk {
  const command = thisCommand();
  if (made?.command !== command) {
    const disk = new DiskSource({ keeps: true });
    made = { command, disk, shelf: new Shelf(disk) };
  }
  return made;
}

/** What has been read so far, for a thread to begin from. */
export function shelf(): Shelf {
  return desk().shelf;
}

export const readMeasured: ReadMeasured = (asked, scenario) => desk().shelf.measurement(asked, scenario);

export const readChanged: ReadChanged = (of) => desk().shelf.read(of);

/** The text of a file, standard input for `-`, as everything that reads it gets it. */
export const readFile: Files = (path) => desk().shelf.text(path);

/** Every file that was read for a plan, as it is kept with a study. Throws BadInput where one changed since. */
export function keptInputs(): readonly KeptInput[] {
  return desk().disk.kept();
}
