/** The files that are written beside the vectors, by their names. */
import type { Scenario } from '../scenario/scenario.ts';
import { gainsFile, gainsText, type Timing } from './gains-text.ts';
import type { Heard } from './heard.ts';
import type { Listened } from './listen.ts';
import type { Origin } from './origin.ts';
import { readmeText } from './readme-text.ts';
import { replayFile, replayText } from './replay-text.ts';

export function embeddedFiles(
  { heard, silent }: Listened,
  scenario: Scenario,
  origin: Origin,
): Readonly<Record<string, string>> {
  const laws = heard.flatMap(({ inC }) => [
    [`${inC.file}.h`, inC.header],
    [`${inC.file}.c`, inC.source],
  ]);
  return {
    ...Object.fromEntries(laws),
    [gainsFile]: gainsText(heard, (one) => timingOf(one, scenario), origin),
    [replayFile]: replayText(heard),
    'README.md': readmeText(heard, silent, origin),
  };
}

/** Sample times of a law's task, and its units. */
function timingOf(heard: Heard, scenario: Scenario): Timing {
  return heard.timing === null ? taskTimingOf(heard, scenario) : { ...heard.timing, phases_s: [] };
}

function taskTimingOf({ id, law }: Heard, { firmware, shelves, batteries, trays }: Scenario): Timing {
  const { period_s, latency_s } = law === 'share' ? firmware.share : firmware.smoothing;
  const units = law !== 'share' ? trays : id === 'share' ? shelves : batteries;
  const phases_s = id === 'share' ? shelves.map(({ values }) => values.share_phase_s) : [];
  return {
    period_s,
    latency_s,
    units: units.map((unit) => unit.id),
    phases_s: phases_s.some((phase_s) => phase_s > 0) ? phases_s : [],
  };
}
