/** Options that say how a file is to be read, and stand without that file: passed over in silence they would mislead. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { MeasuredOptions } from './measured-options.ts';
import type { ReadingOptions } from './reading-options.ts';

const ofLoad = [
  'time',
  'power',
  'current',
  'voltage',
  'channel',
  'unit',
  'where',
  'dates',
  'decimal',
  'averaging',
  'samples',
  'sentinel',
  'fresh',
  'sort',
  'align',
  'acceptAc',
  'at',
  'side',
  'copies',
  'coincidence',
  'smoothed',
] as const satisfies readonly (keyof ReadingOptions)[];

const ofMeasurement = [
  'map',
  'measuredTime',
  'measuredDates',
  'measuredDecimal',
  'measuredAt',
  'measuredNear',
  'measuredSentinel',
  'sensor',
] as const satisfies readonly (keyof MeasuredOptions)[];

/** Options of a load and their likes of a measurement. */
const alike: Readonly<Record<string, string>> = {
  time: '--measured-time',
  dates: '--measured-dates',
  decimal: '--measured-decimal',
  at: '--measured-at',
  sentinel: '--measured-sentinel',
};

/** Throws BadInput with every option that has nothing to act on. */
export function refuseIdle(options: ReadingOptions & MeasuredOptions & { readonly load?: string }): void {
  const { load, measured } = options;
  const problems: Problem[] = [];
  const idle = (key: string, file: string, mend: string): void => {
    problems.push({
      severity: 'error',
      file: flagOf(key),
      found: `${flagOf(key)} without ${file}`,
      expected: 'the file that it says how to read',
      mend,
    });
  };
  for (const key of load === undefined ? ofLoad : []) {
    if (options[key] === undefined) continue;
    const other = measured === undefined ? undefined : alike[key];
    idle(
      key,
      '--load',
      other === undefined
        ? `add --load FILE; of a recording that the scenario names: --set load.reading.${pathOf(key)}=VALUE`
        : `write ${other} where the measurement is meant, or add --load FILE`,
    );
  }
  for (const key of measured === undefined ? ofMeasurement : []) {
    if (options[key] !== undefined) idle(key, '--measured', 'add --measured FILE');
  }
  if (problems.length > 0) throw new BadInput(problems);
}

/** `acceptAc` is --accept-ac. */
function flagOf(key: string): string {
  return `--${key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}

/** `acceptAc` is accept_ac in a scenario. */
function pathOf(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
