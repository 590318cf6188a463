/**
 * Scenarios, recordings and measurements as who carries trials out keeps them: each file is read once, from wherever its
 * text comes. Pure: a page reads what a thread does, from what it carries.
 */
import { BadInput } from '../../base/problem.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Measurement } from '../../measured/measurement.ts';
import type { InputSource } from '../../request/input-source.ts';
import { readLoad } from '../../request/read-load.ts';
import { readMeasurement } from '../../request/read-measurement.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';
import { type ReadScenario, readScenario } from '../../scenario/read.ts';
import type { RecordedReading, Scenario } from '../../scenario/scenario.ts';
import type { Branch } from '../../scenario/text/document.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import { withOwners, writtenAt } from '../written/written-at.ts';

export type FileText = ReturnType<InputSource['text']>;

/** Scenarios kept as they were read. */
const mostScenarios = 32;

export class Shelf implements InputSource {
  readonly #source: InputSource;
  readonly #texts: Map<string, FileText> = new Map();
  readonly #trees: Map<string, Branch> = new Map();
  /** Scenarios with their changes as read last, the latest at the end: who plans a trial reads what its thread reads again. */
  readonly #scenarios: Map<string, ReadScenario> = new Map();
  readonly #recordings: Map<string, RecordedLoad> = new Map();
  readonly #measurements: Map<string, Measurement> = new Map();

  /** `typed`: what standard input said, where another read it. */
  constructor(source: InputSource, typed: FileText | null = null) {
    this.#source = source;
    if (typed !== null) this.#texts.set('-', typed);
  }

  /** Throws BadInput where scenario or changes are wrong. */
  read(of: ChangedScenario): ReadScenario {
    const key = JSON.stringify([of.scenario, of.changes]);
    const known = this.#scenarios.get(key) ?? this.#read(of);
    this.#scenarios.delete(key);
    this.#scenarios.set(key, known);
    for (const oldest of this.#scenarios.keys()) {
      if (this.#scenarios.size <= mostScenarios) break;
      this.#scenarios.delete(oldest);
    }
    return known;
  }

  #read({ scenario, changes }: ChangedScenario): ReadScenario {
    const options = { files: (path: string) => this.text(path), changes, trees: this.#trees };
    try {
      return readScenario(scenario, { ...options, changesFrom: writtenAt });
    } catch (error) {
      throw error instanceof BadInput ? new BadInput(withOwners(error.problems, changes)) : error;
    }
  }

  /** What standard input said, which can be read once only; null where nothing was read from it. */
  get typed(): FileText | null {
    return this.#texts.get('-') ?? null;
  }

  text(path: string): FileText {
    const known = this.#texts.get(path) ?? this.#source.text(path);
    this.#texts.set(path, known);
    return known;
  }

  pieces(path: string, take: (text: string, fraction: number | null) => void): string {
    if (path !== '-') return this.#source.pieces(path, take);
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
    const known = this.#recordings.get(key) ?? readLoad(this, file, reading);
    this.#recordings.set(key, known);
    return known;
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
