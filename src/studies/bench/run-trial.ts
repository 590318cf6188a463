/** Runs one trial here: files to judged outcome. Keeps what many trials share: file texts, trees, recordings. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { BadInput } from '../../base/problem.ts';
import { ControllerFault } from '../../firmware/user/fault.ts';
import { bytesAtHand, parquetPieces } from '../../loads/recorded/parquet-text.ts';
import { RecordedReader } from '../../loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import { run } from '../../run.ts';
import { type ReadScenario, readScenario } from '../../scenario/read.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import type { Branch } from '../../scenario/text/document.ts';
import { unfelt } from '../felt.ts';
import { noOperatingPoint, outcomeOf, type Trial, type TrialOutcome } from '../trial.ts';

export class Shelf {
  private readonly texts: Map<string, { readonly text: string; readonly sha256: string }> = new Map();
  private readonly trees: Map<string, Branch> = new Map();
  private readonly recordings: Map<string, RecordedLoad> = new Map();

  /** Throws BadInput where scenario or changes are wrong. */
  read({ scenario, changes }: Trial): ReadScenario {
    return readScenario(scenario, { files: (path) => this.file(path), changes, trees: this.trees });
  }

  /** A run that finds no state to begin in is an outcome; everything else wrong is BadInput. */
  run(trial: Trial): TrialOutcome {
    const { scenario } = this.read(trial);
    const recorded =
      scenario.load.kind === 'recorded' ? this.recording(scenario.load.file, scenario.load.reading) : null;
    try {
      const { report, result } = run(scenario, recorded);
      return outcomeOf(report, unfelt(scenario, trial.changes, result));
    } catch (error) {
      if (error instanceof BadInput && !(error instanceof ControllerFault))
        return noOperatingPoint(error.problems[0]?.found ?? 'no operating point');
      throw error;
    }
  }

  private file(path: string): { readonly text: string; readonly sha256: string } {
    const known = this.texts.get(path);
    if (known !== undefined) return known;
    const bytes = readFileSync(path);
    const read = { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
    this.texts.set(path, read);
    return read;
  }

  private recording(file: string, reading: RecordedReading): RecordedLoad {
    const key = JSON.stringify([file, reading]);
    const known = this.recordings.get(key);
    if (known !== undefined) return known;
    const { text, sha256 } = this.file(file);
    const reader = new RecordedReader(file, reading);
    const bytes = text.startsWith('PAR1') ? readFileSync(file) : null;
    if (bytes === null) reader.push(text);
    else parquetPieces(bytesAtHand(bytes), file, (piece) => reader.push(piece));
    const recorded = reader.finish(sha256);
    this.recordings.set(key, recorded);
    return recorded;
  }
}
