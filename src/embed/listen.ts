/** Runs a scenario and hears its laws. */
import { BadInput } from '../base/problem.ts';
import { simulate } from '../engine/simulate.ts';
import type { TimedWitness } from '../firmware/law-run.ts';
import { makeDemand } from '../loads/make-demand.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import { assemble } from '../network/network.ts';
import type { OccurrenceKind } from '../scenario/occurrences.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { Heard, idOf } from './heard.ts';

export interface Listening {
  /** Takes a line of a law's vectors. */
  readonly line: (id: string, text: string) => void;
  /** Looks on at the same runs. */
  readonly besides?: TimedWitness;
  readonly onProgress?: (fraction: number) => void;
}

export interface Listened {
  readonly heard: readonly Heard[];
  /** Laws that did not run, and why. */
  readonly silent: readonly string[];
}

/**
 * The laws that a run of the scenario runs, each with its gains; a line of vectors for each of their runs. Throws BadInput where a
 * gain changes in the run, where numbers of the run fail, and where no law runs at all.
 */
export function listen(
  scenario: Scenario,
  recorded: RecordedLoad | null,
  { line, besides, onProgress }: Listening,
): Listened {
  const all = new Map<string, Heard>();
  const { failure } = simulate(assemble(scenario), makeDemand(scenario, recorded ?? undefined), {
    levels_V: new Float64Array(0),
    witness: (tick, law, run, when) => {
      besides?.(tick, law, run, when);
      const id = idOf(law, run);
      let heard = all.get(id);
      if (when === 'before') {
        if (heard !== undefined) return;
        heard = new Heard(law, run, (text) => line(id, text));
        all.set(id, heard);
      } else heard!.take(tick);
    },
    ...(onProgress === undefined ? {} : { onProgress }),
  });
  const heard = [...all.values()];
  const silent = silentLaws(scenario, heard);
  refuseUnusable(
    scenario,
    heard,
    silent,
    failure === null ? null : `${failure.cause} at ${failure.time_s} s`,
  );
  return { heard, silent };
}

/** Laws of the scenario that stay out, each with its reason. */
function silentLaws({ controllers, trays }: Scenario, heard: readonly Heard[]): string[] {
  const own = (replaces: string): boolean => controllers.some((one) => one.replaces === replaces);
  const ran = new Set(heard.map(({ law }) => law));
  return [
    ...(own('share') ? ['share: a controller of your own runs in its place'] : []),
    ...(own('smoothing') ? ['smoothing and charge: a controller of your own runs in their place'] : []),
    ...(own('voltage-loop') ? ['voltage: a controller of your own runs in its place'] : []),
    ...(trays.length === 0 ? ['smoothing and charge: the cabinet has no trays'] : []),
    ...(trays.length > 0 && !own('smoothing') && !ran.has('smoothing')
      ? ['smoothing and charge: they did not run']
      : []),
  ];
}

/** Events after which samples are older than the gains say. */
const delaying: ReadonlySet<OccurrenceKind> = new Set(['signal-late', 'signal-jitter']);

function refuseUnusable(
  scenario: Scenario,
  heard: readonly Heard[],
  silent: readonly string[],
  failed: string | null,
): void {
  const file = scenario.inputs[0]?.path ?? scenario.id;
  const problems = heard.flatMap(({ id, changed }) => {
    if (changed === null) return [];
    const time_s = changed.tick * scenario.tick_s;
    return [
      {
        severity: 'error' as const,
        file,
        found: `${changed.name} of the law ${id} changes at ${Number(time_s.toPrecision(6))} s`,
        expected: 'gains that stand over the whole run, as they become constants',
        mend: `end the run before that, with --set duration="…", or leave the event out`,
      },
    ];
  });
  for (const { what, unit, at_s } of scenario.events)
    if (delaying.has(what) && at_s < scenario.duration_s)
      problems.push({
        severity: 'error' as const,
        file,
        found: `${what} of ${unit} at ${at_s} s`,
        expected: 'samples as old as the latency that becomes a constant',
        mend: 'state that latency in the firmware (firmware.smoothing.latency and so on), and leave the event out',
      });
  if (failed !== null)
    problems.push({
      severity: 'error',
      file,
      found: `a run that fails: ${failed}`,
      expected: 'one that comes to its end, as its commands become vectors',
      mend: 'see why with buswake run; end it before that with --set duration="…"',
    });
  if (heard.length === 0)
    problems.push({
      severity: 'error',
      file,
      found: `no law that runs (${silent.join('; ')})`,
      expected: 'share, smoothing, charge or sampled voltage loops as the project has them',
      mend: 'leave the controllers out, or make the run longer than the period of its tasks',
    });
  if (problems.length > 0) throw new BadInput(problems);
}
