import { expect, it } from 'vitest';
import { studyNamed } from '../../src/shipped/study-named.ts';
import { situationsOf } from '../../src/studies/written/situations.ts';

const text = `study: size
title: Two cases
scenario: ../../scenarios/single-step.yaml
changes: [duration = 8 s]
cases:
  long: { changes: [duration = 16 s, trays.esr = 3 mΩ] }
  own tray: { changes: [trays.T1.capacitance = 90 F] }
  plain: { changes: [] }
vary:
  trays.count: 9 to 10
`;

it('lets the command line stand over what the cases of a study say', () => {
  const set = [
    { path: 'duration', value: '2 s' },
    { path: 'trays.capacitance', value: '120 F' },
  ];
  const study = studyNamed('-', 'size', set, () => ({ text, sha256: '' }));
  const last = (path: string, k: number) =>
    situationsOf(study)[k]!.before.findLast((change) => change.path === path)?.value;
  expect([last('duration', 0), last('duration', 1), last('duration', 2)]).toEqual(['2 s', '2 s', '2 s']);
  // A kind reaches the unit that a case names.
  const own = situationsOf(study)[1]!.before.map(({ path }) => path);
  expect(own.lastIndexOf('trays.capacitance')).toBeGreaterThan(own.indexOf('trays.T1.capacitance'));
  expect(last('trays.esr', 0)).toBe('3 mΩ');
});
