/** A small load of known energy, and what reading a text or being refused gives. */
import { plainReading, readRecorded } from '../../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../../src/scenario/scenario.ts';

export const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...reading });

export const lines = (...rows: string[]) => `${rows.join('\n')}\n`;

export const refusal = (text: string, reading: Partial<RecordedReading> = {}) => {
  try {
    read(text, reading);
  } catch (error) {
    return (error as Error).message;
  }
  return 'read without a word';
};

/** Energy of 100 W rising to 300 W and back within 0.4 s, in steps of 0.1 s: 20 + 4 · … by the trapezoid. */
export const hat = {
  stamps: [0, 1, 2, 3, 4],
  watts: [100, 200, 300, 200, 100],
  energy_J: 0.1 * (150 + 250 + 250 + 150),
};
