/** What a thread computes in one go: a row of cells, so that what neighbours share is made once. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { BadInput, type Problem } from '../../base/problem.ts';
import { ControllerFault } from '../../firmware/user/fault.ts';
import { readScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Branch } from '../../scenario/text/document.ts';
import { CellWorkshop, empty, type GainsCell } from './cell.ts';

export interface Strip {
  readonly scenario: string;
  readonly load_W: number;
  /** Changes of each cell, in order. */
  readonly cells: readonly (readonly Change[])[];
}

export type StripDone =
  | { readonly kind: 'cells'; readonly cells: readonly GainsCell[] }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

const workshop = new CellWorkshop();
const trees = new Map<string, Branch>();
const texts = new Map<string, { readonly text: string; readonly sha256: string }>();

function file(path: string): { readonly text: string; readonly sha256: string } {
  const known = texts.get(path);
  if (known !== undefined) return known;
  const bytes = readFileSync(path);
  const read = { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
  texts.set(path, read);
  return read;
}

/** A cell without an operating point has that for its reason; anything else wrong with the input ends the map. */
export function work({ scenario: path, load_W, cells }: Strip): StripDone {
  const out: GainsCell[] = [];
  for (const changes of cells) {
    try {
      const { scenario } = readScenario(path, { files: file, changes, trees });
      out.push(cellOrReason(() => workshop.cell(scenario, load_W)));
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      return { kind: 'problems', problems: error.problems };
    }
  }
  return { kind: 'cells', cells: out };
}

function cellOrReason(make: () => GainsCell): GainsCell {
  try {
    return make();
  } catch (error) {
    if (error instanceof BadInput && !(error instanceof ControllerFault))
      return empty(error.problems[0]?.found ?? 'no operating point');
    throw error;
  }
}
