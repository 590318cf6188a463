import { expect, it } from 'vitest';
import type { RunRequest } from '../../../src/request/run-request.ts';
import { commandOf } from '../../../web/what-if/command.ts';

const request: RunRequest = {
  scenario: 'scenarios/pulse-train.yaml',
  changes: [
    { path: 'duration', value: '5 s', option: '--set' },
    { path: 'trays.esr', value: '3 mΩ', option: '--set' },
  ],
  load: null,
  waivers: [{ limit: 'trim', reason: "it's being retuned", by: null, until: null }],
  judged_on: '2030-06-30',
  asked_on: '2030-06-29',
  doubt: true,
  measured: null,
};

it('is whole: scenario, changes without those that are replaced, waivers, day and doubt', () => {
  expect(commandOf(request, [{ path: 'trays.esr', value: '2 mΩ' }])).toEqual({
    whole: true,
    text: "buswake run scenarios/pulse-train.yaml --set 'duration=5 s' --set 'trays.esr=2 mΩ' --waive 'trim=it'\\''s being retuned' --on 2030-06-30 --doubt",
  });
});

it('is the changes alone where a measurement was named by options', () => {
  const measured = { file: 'm.csv', time: null, dates: null, decimal: null, map: [], at_s: 0, near_s: null };
  const laid = { ...request, measured: { ...measured, sentinel: [], sensors: [] } };
  expect(commandOf(laid, [{ path: 'trays.count', value: '8' }])).toEqual({
    whole: false,
    text: '--set trays.count=8',
  });
});
