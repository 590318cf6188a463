/** What the options of a measurement ask of each other. */
import { excludes, needs, type OptionRule, readOnce } from './rule.ts';

const ofMeasurement = [
  '--map',
  '--measured-time',
  '--measured-dates',
  '--measured-decimal',
  '--measured-at',
  '--measured-near',
  '--measured-sentinel',
  '--sensor',
] as const;

export const measuredRules: readonly OptionRule[] = [
  readOnce('--measured'),
  ...ofMeasurement.map((option) =>
    needs(option, ['--measured'], 'the file that it says how to read', 'add --measured FILE'),
  ),
  excludes(
    '--measured-near',
    '--measured-at',
    'a time that is known exactly, or one that is known about and then found',
    'leave out --measured-near where the time is exact, or --measured-at where it is not',
  ),
];
