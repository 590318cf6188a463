/** What a caller asks of a run, in the words of the command line. */
import type { AskedChange, RunRequest } from '../request/run-request.ts';

/** Contents of files by path, as the scenario and its models name each other. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

/** What is asked of `check`. */
export interface CheckAsk {
  /** Changes by path, each a value with its unit as in a file: `{ 'trays.capacitance': '130 F' }`. In this order. */
  readonly set?: Readonly<Record<string, string>>;
  /**
   * Files that are taken from here: a scenario, a model or a recording that lies on no disk. What is not among them comes
   * from the disk (in Node) or is one of the scenarios and models that come with the package (in a browser).
   */
  readonly files?: Files;
}

/** What is asked of `run`. */
export interface RunAsk extends CheckAsk {
  /** Limits that are waived, by id, each with its reason. */
  readonly waive?: Readonly<Record<string, string>>;
  /** Day for which the verdict is given and waivers hold, for example `2030-06-30`; today by default. */
  readonly on?: string;
  /** Run again at finer steps and with trims nudged, and guard the verdict by how far each finding moved. */
  readonly doubt?: boolean;
  /** Called with the part that is done, 0 to 1. */
  onProgress?(fraction: number): void;
  /** Asked now and then: true ends the run, whose report then has status `stopped`. */
  shouldStop?(): boolean;
}

/** Today in universal time, as `on` would say it. */
function today(): string {
  return new Date().toISOString().slice(0, 10);
}

export function changesOf({ set = {} }: CheckAsk): AskedChange[] {
  return Object.entries(set).map(([path, value]) => ({ path, value, option: 'set' }));
}

/** The whole request. `scenario`: path of its file. */
export function requestOf(scenario: string, ask: RunAsk): RunRequest {
  const { waive = {}, on, doubt = false } = ask;
  return {
    scenario,
    changes: changesOf(ask),
    load: null,
    waivers: Object.entries(waive).map(([limit, reason]) => ({ limit, reason, by: null, until: null })),
    judged_on: on ?? today(),
    asked_on: today(),
    doubt,
    measured: null,
  };
}
