/** What the options of waveforms ask of each other. */
import { resolve } from 'node:path';
import { type Given, needs, type OptionRule, onDiskAlone, rule } from './rule.ts';

/** Wherever rows are chosen: a filter is one of rows at a rate. */
export const paceRules: readonly OptionRule[] = [
  needs('--filter', ['--rate'], 'a filter of rows at a rate', 'add --rate "1 kHz"', 'a rate'),
];

export const waveformRules: readonly OptionRule[] = [
  ...paceRules,
  onDiskAlone('--csv'),
  onDiskAlone('--parquet'),
  ...['--channels', '--rate', '--filter'].map((option) =>
    needs(
      option,
      ['--csv', '--parquet'],
      'where waveforms are to go',
      'add --csv FILE or --parquet FILE',
      'a file',
    ),
  ),
  rule('--parquet', ['--csv'], (given) =>
    given.has('--csv') && place(given, '--csv') === place(given, '--parquet')
      ? {
          found: `--csv and --parquet of the same file, ${given.value('--parquet')}`,
          expected: 'a file for each form',
          mend: 'give one of them another name',
        }
      : null,
  ),
  ...['--csv', '--parquet'].map((option) =>
    rule(option, ['--out'], (given) =>
      given.has('--out') && `${place(given, option)}/`.startsWith(`${place(given, '--out')}/`)
        ? {
            found: `${option} in the directory of --out`,
            expected: 'a file outside of it: what is kept there is listed with its sums',
            mend: 'choose a place beside it',
          }
        : null,
    ),
  ),
];

function place(given: Given, option: string): string {
  return resolve(String(given.value(option)));
}
