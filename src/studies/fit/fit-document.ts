import type { StudyHead } from '../head.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import type { FitReport } from './fit-report.ts';
import type { FoundPlace } from './place.ts';

/** A fit with what it was made from. */
export interface FitDocument extends StudyHead, FitReport {
  readonly measured: PlacedMeasurement;
  /** What the values were adjusted in; those found come behind (`fitted-trial.ts`). */
  readonly base: ChangedScenario;
}

interface PlacedMeasurement {
  readonly file: string;
  readonly sha256: string;
  readonly aligned: FoundPlace['aligned'];
}
