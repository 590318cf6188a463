import { type Command, Option } from 'commander';
import type { Change } from '../../scenario/scenario.ts';

/** What the options of a replay hold once parsed. */
export interface ReplayOptions {
  readonly from?: string;
  readonly edges?: 'smooth' | 'sharp' | 'both';
  readonly edge?: string;
  readonly loop?: boolean;
  readonly draws?: 'power' | 'current' | 'mixed';
}

/** Adds the options that say how a recorded load is played between and beyond its samples. */
export function addReplayOptions(command: Command): Command {
  return command
    .option('--from <time>', 'where in the recording the run starts, for example "26 s" (default: its start)')
    .addOption(
      new Option(
        '--edges <how>',
        'interpolation between samples: smooth (straight lines), sharp (steps that keep the energy), or both, so that findings carry a bracket',
      ).choices(['smooth', 'sharp', 'both']),
    )
    .option('--edge <time>', 'duration of a sharp edge (default: 5 ms)')
    .option('--loop', 'play the recorded stretch again and again, if its ends meet')
    .addOption(
      new Option(
        '--draws <what>',
        'what the sleds hold while the bus moves: power (as their model says unless it is changed), current, or mixed, half of each; sets sleds.constant_current',
      ).choices(['power', 'current', 'mixed']),
    );
}

/** Share of the load drawn as constant current. */
const constantCurrent = { power: '0 %', current: '100 %', mixed: '50 %' } as const;

/** The changes of the load that the options stand for. */
export function replayChanges(options: ReplayOptions): Change[] {
  return [
    ...(options.from === undefined ? [] : [{ path: 'load.from', value: options.from }]),
    ...(options.edges === undefined ? [] : [{ path: 'load.edges', value: options.edges }]),
    ...(options.edge === undefined ? [] : [{ path: 'load.edge', value: options.edge }]),
    ...(options.draws === undefined
      ? []
      : [{ path: 'sleds.constant_current', value: constantCurrent[options.draws] }]),
    ...(options.loop === true ? [{ path: 'load.loop', value: 'true' }] : []),
  ];
}
