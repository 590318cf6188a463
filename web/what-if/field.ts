/** What every field of the form has in common. */
import type { Change } from '../../src/scenario/scenario.ts';

export interface Field {
  readonly element: HTMLElement;
  /** What it changes, as `--set` takes it; none while it stands as the run was. Throws BadInput where its text is none. */
  changes(): readonly Change[];
  /** Back to how the run was. */
  reset(): void;
}
