/** The files that are written beside the vectors, by their names. */

import type { Scenario } from '../scenario/scenario.ts';
import { changesAsWords } from './fixed/as-words.ts';
import { inFixedPoint } from './fixed/fixed-form.ts';
import { fixedPointFile, fixedPointText } from './fixed/fixed-point-text.ts';
import { fixedWords } from './fixed/fixed-words.ts';
import type { FixedPoint } from './fixed/listen-fixed.ts';
import { replayInFixedPoint } from './fixed/replay-fixed.ts';
import { gainsFile, gainsText, type Timing } from './gains-text.ts';
import type { Heard } from './heard.ts';
import type { Listened } from './listen.ts';
import { inFloats } from './number-form.ts';
import type { Origin } from './origin.ts';
import { inFloatWords, readmeText } from './readme-text.ts';
import { replayInFloats } from './replay-floats.ts';
import { replayFile, replayText } from './replay-text.ts';

export function embeddedFiles(
  { heard, silent }: Listened,
  scenario: Scenario,
  origin: Origin,
  fixed: Pick<FixedPoint, 'formats' | 'bounds'> | null = null,
): Readonly<Record<string, string>> {
  const form = fixed === null ? inFloats : inFixedPoint(fixed.formats);
  const replay = fixed === null ? replayInFloats : replayInFixedPoint(fixed.formats, fixed.bounds);
  const laws = heard.flatMap((one) => {
    const { header, source } = form.texts(one);
    return [
      [`${one.inC.file}.h`, header],
      [`${one.inC.file}.c`, source],
    ];
  });
  return {
    ...Object.fromEntries(laws),
    ...(fixed === null ? {} : { [fixedPointFile]: fixedPointText }),
    [gainsFile]: gainsText(heard, (one) => timingOf(one, scenario), origin, form),
    [replayFile]: replayText(heard, replay),
    'README.md': readmeText(
      heard,
      silent,
      origin,
      fixed === null
        ? inFloatWords
        : fixedWords(heard, fixed, changesAsWords(heard, scenario, fixed.formats)),
    ),
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
