/** A whole random scenario: cabinet, load, faults and changes, as texts and as the reader takes them. */
import { createHash } from 'node:crypto';
import { BadInput } from '../../src/base/problem.ts';
import { readTextFile } from '../../src/disk/read-file.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { eventKinds } from '../../src/scenario/occurrences.ts';
import { type ReadOptions, type ReadScenario, readScenario } from '../../src/scenario/read.ts';
import { randomCabinet } from './cabinet.ts';
import { randomChange } from './changes.ts';
import { Draw, writtenTime } from './draw.ts';
import { randomFault, shortKinds } from './faults.ts';
import { randomLoad } from './load.ts';

export interface RandomScenario {
  /** What was drawn, by path: the scenario and its cabinet, which names the shipped models. */
  readonly files: Files;
  readonly read: ReadScenario;
}

type Files = Readonly<Record<string, string>>;

const scenarioPath = 'scenarios/random.yaml';

const cabinetPath = 'models/random-cabinet.yaml';

/** Draws before a number counts as one that nothing legal comes of. */
const mostDraws = 200;

/** Scenario `number` of the series `seed`; `shorted`: its first fault is a short. */
export function randomScenario(seed: number, number: number, shorted: boolean): RandomScenario {
  const draw = new Draw(seed, number);
  for (let drawn = 0; drawn < mostDraws; drawn++) {
    const scenario = attempt(draw, number, shorted);
    if (scenario !== null) return scenario;
  }
  throw new RangeError(`nothing legal in ${mostDraws} draws of ${number} of seed ${seed}`);
}

/** One draw; null where the reader refuses it, or where there is no operating point to start from. */
function attempt(draw: Draw, number: number, shorted: boolean): RandomScenario | null {
  const { text: cabinetText, able_W } = randomCabinet(draw);
  const length_s = draw.between(0.05, 0.2);
  const plain = `title: Random cabinet ${number}
about: Drawn to try the engine.
cabinet: ../${cabinetPath}
duration: ${writtenTime(length_s)}
seed: ${number}
start: ${draw.chance(0.15) ? 'converged-cycle' : 'settled'}
outage: true
load: ${randomLoad(draw, able_W * draw.between(0.1, 1.1), length_s)}
`;
  const before = readAs({ [scenarioPath]: plain, [cabinetPath]: cabinetText });
  if (before === null) return null;
  const faults = Array.from({ length: draw.whole(1, 3) }, (_, k) =>
    randomFault(draw, before.eventUnits, length_s, shorted && k === 0 ? shortKinds : eventKinds),
  );
  const changes = Array.from({ length: draw.whole(0, 4) }, () => randomChange(draw, before));
  const changed = changes.length > 0 ? ['changes:', ...new Set(changes)] : [];
  const scenarioText = `${plain}${['events:', ...faults, ...changed].join('\n')}\n`;
  const files = { [scenarioPath]: scenarioText, [cabinetPath]: cabinetText };
  const read = readAs(files);
  return read === null || !starts(read) ? null : { files, read };
}

/** Is there an operating point to start from? */
function starts({ scenario }: ReadScenario): boolean {
  return unlessRefused(() => ready(assemble(scenario), makeDemand(scenario), 1)) !== null;
}

const sumOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/** Documents read before, by path and sum: the models, which all cabinets share. */
const trees: NonNullable<ReadOptions['trees']> = new Map();

/** Reads the texts; null where the reader refuses them. */
function readAs(own: Files): ReadScenario | null {
  const files = (path: string) => {
    const text = own[path];
    return text === undefined ? readTextFile(path) : { text, sha256: sumOf(text) };
  };
  return unlessRefused(() => readScenario(scenarioPath, { files, trees }));
}

/** What `make` gives, or null where it refuses the input by name. */
function unlessRefused<T>(make: () => T): T | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof BadInput) return null;
    throw error;
  }
}
