/** What the options of a recorded load ask of each other. */
import { excludes, type Given, idleWith, needs, type OptionRule, readOnce, rule } from './rule.ts';

/** What is wrong with a reading wherever it is used. */
export const readingRules: readonly OptionRule[] = [
  excludes('--power', '--current', 'columns of powers, or of currents that are taken times the voltage'),
  excludes(
    '--voltage',
    '--power',
    'a voltage that a current is taken times',
    'leave it out, or name the current by --current instead of --power',
  ),
  idleWith(
    '--averaging',
    '--samples',
    'instants',
    'one of them: an instant is the value at its stamp, averaged over nothing',
    'leave out --samples instants, or --averaging',
  ),
];

/** What is wrong with how copies of a recording are put into the cabinet. */
const useRules: readonly OptionRule[] = [
  idleWith(
    '--coincidence',
    '--copies',
    1,
    'two copies or more, which run against each other',
    'leave out --coincidence',
  ),
  rule('--accept-ac', ['--side'], (given) =>
    given.value('--side') === 'ac'
      ? null
      : {
          found: given.has('--side') ? '--accept-ac with --side dc' : '--accept-ac without --side ac',
          expected: 'a recording of the AC side, which it accepts as the DC load',
          mend: given.has('--side') ? 'leave it out, or write --side ac' : 'add --side ac, or leave it out',
        },
  ),
];

/** Options that say how a recording is read, each with its key of `load.reading` in a scenario. */
const ofReading = [
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
  'overrule',
  'accept-ac',
  'at',
  'side',
  'copies',
  'coincidence',
  'smoothed',
] as const;

/** Options of a load and their likes of a measurement. */
const alike: Readonly<Record<string, string>> = {
  '--time': '--measured-time',
  '--dates': '--measured-dates',
  '--decimal': '--measured-decimal',
  '--at': '--measured-at',
  '--sentinel': '--measured-sentinel',
};

/** Options that say how it is played, each with its path in a scenario. */
const ofPlay = ['from', 'edges', 'edge', 'loop'] as const;

/** Where the recording is an option of its own: nothing says how to read or play a file that is not given. */
export const loadRules: readonly OptionRule[] = [
  ...readingRules,
  ...useRules,
  readOnce('--load', '--measured'),
  ...ofReading.map((word) => {
    const option = `--${word}`;
    return needs(option, ['--load'], 'the file that it says how to read', (given: Given) => {
      const other = given.has('--measured') ? alike[option] : undefined;
      return other === undefined
        ? `add --load FILE; of a recording that the scenario names: --set ${readingPath(word)}=VALUE`
        : `write ${other} where the measurement is meant, or add --load FILE`;
    });
  }),
  ...ofPlay.map((word) =>
    needs(
      `--${word}`,
      ['--load'],
      'the recording that it says how to play',
      `add --load FILE; of a recording that the scenario names: --set load.${word}=VALUE`,
    ),
  ),
  idleWith(
    '--edge',
    '--edges',
    'smooth',
    'sharp edges, which it makes so long',
    'leave it out, or give --edges sharp or --edges both',
  ),
  ...ofPlay.map((word) => setTwice(`--${word}`, new RegExp(`^load\\.${word}$`))),
  setTwice('--copies', /^load\.(?:peak|scale)$/, 'one scale of the recording'),
  setTwice('--draws', /^sleds\b.*\.constant_current$/),
  ...ofReading.map((word) =>
    rule('--load', ['--set', `--${word}`], (given) =>
      setPath(given, new RegExp(`^${readingPath(word).replaceAll('.', '\\.')}$`)) === null
        ? null
        : {
            found: `--set ${readingPath(word)} together with --load`,
            expected: 'options: the file of --load is read before the scenario is changed',
            mend: `write --${word} instead`,
          },
    ),
  ),
];

function readingPath(word: string): string {
  return `load.reading.${word.replaceAll('-', '_')}`;
}

/** The option stands for a change that `--set` makes as well. */
function setTwice(
  option: string,
  path: RegExp,
  expected = 'one of them, for both set the same value',
): OptionRule {
  return rule(option, ['--set'], (given) => {
    const set = setPath(given, path);
    return set === null
      ? null
      : {
          found: `${option} together with --set ${set}`,
          expected,
          mend: 'leave one of them out',
        };
  });
}

/** The first path that `--set` names and that fits; null where none does. */
function setPath(given: Given, fits: RegExp): string | null {
  const changes = given.value('--set');
  if (!Array.isArray(changes)) return null;
  const paths = changes.map((change: { readonly path: string }) => change.path);
  return paths.find((path) => fits.test(path)) ?? null;
}
