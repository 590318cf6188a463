/** Scenarios, recordings and measurements as a thread keeps them: each file is read once. */
import { BadInput } from '../../base/problem.ts';
import { type FileText, readTextFile } from '../../disk/read-file.ts';
import { RecordedReader } from '../../loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { type InputSource, inputName } from '../../request/input-source.ts';
import { readMeasurement } from '../../request/read-measurement.ts';
import { readPieces } from '../../request/read-pieces.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';
import { type ReadScenario, readScenario } from '../../scenario/read.ts';
import type { RecordedReading, Scenario } from '../../scenario/scenario.ts';
import type { Branch } from '../../scenario/text/document.ts';
import type { ChangedScenario } from '../trials/trial.ts';

export class Shelf implements InputSource {
  readonly #texts: Map<string, FileText> = new Map();
  readonly #trees: Map<string, Branch> = new Map();
  readonly #recordings: Map<string, RecordedLoad> = new Map();
  readonly #measurements: Map<string, Measurement> = new Map();

  /** `typed`: what standard input said, where another read it. */
  constructor(typed: FileText | null = null) {
    if (typed !== null) this.#texts.set('-', typed);
  }

  /** Throws BadInput where scenario or changes are wrong. */
  read({ scenario, changes }: ChangedScenario): ReadScenario {
    return readScenario(scenario, { files: (path) => this.text(path), changes, trees: this.#trees });
  }

  /** What standard input said, which can be read once only; null where nothing was read from it. */
  get typed(): FileText | null {
    return this.#texts.get('-') ?? null;
  }

  text(path: string): FileText {
    const known = this.#texts.get(path) ?? readTextFile(path);
    this.#texts.set(path, known);
    return known;
  }

  /** Hands a long text on in pieces, see InputSource; gives the sum of its bytes. */
  pieces(path: string, take: (text: string, fraction: number | null) => void): string {
    if (path !== '-') return readPieces(path, inputName(path), take);
    const { text, sha256 } = this.text(path);
    if (text === null) throw typedTooLong();
    take(text, 1);
    return sha256;
  }

  measurement(asked: AskedMeasurement, scenario: Scenario): Measurement {
    const key = JSON.stringify(asked);
    const known = this.#measurements.get(key) ?? readMeasurement(this, asked, scenario);
    this.#measurements.set(key, known);
    return known;
  }

  /** The recording that a scenario plays; null where it plays none. */
  recordingOf({ load }: Scenario): RecordedLoad | null {
    return load.kind === 'recorded' ? this.#recording(load.file, load.reading) : null;
  }

  #recording(file: string, reading: RecordedReading): RecordedLoad {
    const key = JSON.stringify([file, reading]);
    const known = this.#recordings.get(key);
    if (known !== undefined) return known;
    const reader = new RecordedReader(file, reading);
    const recorded = reader.finish(this.pieces(file, (text) => reader.push(text)));
    this.#recordings.set(key, recorded);
    return recorded;
  }
}

/** Standard input goes to every thread of a study as one text. */
function typedTooLong(): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file: 'standard input',
      found: 'a recording longer than 1 MB, or not in UTF-8',
      expected: 'in a study, a file that every thread can read',
      mend: 'write it to a file and name that',
    },
  ]);
}
