/** What a study's command runs: a scenario by name or path with its changes, and the recording where the load is one. */

import { DiskSource } from '../../bundle/disk-source.ts';
import { type Prepared, scenarioOf } from '../../request/prepare.ts';
import type { Change } from '../../scenario/scenario.ts';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { shippedLimitsText } from '../../shipped/shipped-limits.ts';
import { withReadingLine } from '../terminal/reading-line.ts';

export function scenarioToRun(name: string, changes: readonly Change[]): Omit<Prepared, 'measured'> {
  const asked = changes.map((change) => ({ ...change, option: '--set' }));
  const request = { scenario: scenarioFile(name), changes: asked, load: null, waivers: [] };
  return withReadingLine((onProgress) =>
    scenarioOf(request, new DiskSource(), { onProgress, shippedLimits: shippedLimitsText() }),
  );
}
