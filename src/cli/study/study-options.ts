/** Options that studies take alike: where they are kept, how they are carried out, what is printed. */
import { type Command, InvalidArgumentError } from 'commander';
import type { Change } from '../../scenario/scenario.ts';
import { mostWorkers } from '../../studies/bench/most-workers.ts';
import { excludes, needs, type OptionRule, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { setOption } from '../options/set-option.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { addPartOptions, type PartOptions, partRules } from './parts.ts';

export interface StudyOptions extends PartOptions {
  readonly set: readonly Change[];
  readonly out?: string;
  readonly resume?: boolean;
  readonly force?: boolean;
  readonly workers?: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly color: boolean;
}

/** What a study begins from, as the help says it. */
const begins = {
  study:
    'file of a study, the name of one in scenarios/studies/, or a scenario; - reads a scenario from stdin',
  scenario: 'path of a scenario, or the name of one in scenarios/; - reads stdin',
} as const;

const rules: readonly OptionRule[] = [
  onDiskAlone('--out'),
  needs('--resume', ['--out'], 'the directory of the study to go on with', 'add --out DIR'),
  needs('--force', ['--out'], 'a directory that it may overwrite', 'add --out DIR, or leave it out'),
  excludes('--force', '--resume', 'a study that is begun again, or one that goes on'),
];

/** `whole`: it is one trial, or each depends on the one before, so that it is not split. */
export function addStudyOptions(
  command: Command,
  from: keyof typeof begins,
  split: 'in parts' | 'whole',
): Command {
  (split === 'in parts' ? addPartOptions(command) : command)
    .argument(`<${from}>`, begins[from])
    .addOption(setOption())
    .option('-o, --out <dir>', 'keep trials and report there; required to continue after a stop')
    .option('--resume', 'continue the study kept in that directory')
    .addOption(forceOption('a study kept in that directory, which begins again'))
    .option('--workers <n>', 'threads; all cores by default', threads)
    .option('-q, --quiet', 'print one line')
    .addOption(jsonOption())
    .option('--no-color', 'no colour');
  return ruled(command, split === 'in parts' ? [...rules, ...partRules] : rules);
}

/** Each thread has memory of its own, and beyond the cores none is any quicker. */
const threads = wholeUpTo(mostWorkers, 'more threads than cores are no quicker');

/** A reader of whole numbers from 1 to `most`; `because`: why no more. */
export function wholeUpTo(most: number, because: string): (word: string) => number {
  return (word) => {
    const count = wholeAboveZero(word);
    if (count <= most) return count;
    throw new InvalidArgumentError(`write at most ${most}: ${because}.`);
  };
}

export function wholeAboveZero(word: string): number {
  if (!/^[1-9]\d*$/.test(word)) throw new InvalidArgumentError('write a whole number above 0.');
  return Number(word);
}
