import { describe, expect, it } from 'vitest';
import { messageOf, readShipped } from '../shipped.ts';

const file = 'scenarios/pulse-train.yaml';
const added = (text: string) => [[file, 'duration: 30 s', `duration: 30 s\n${text}`]] as const;

describe('waivers and conditions', () => {
  it('are none unless somebody writes them; one cabinet on its feeder', () => {
    expect(readShipped(file).scenario).toMatchObject({
      waivers: [],
      conditions: [],
      cabinets_on_feeder_count: 1,
      coincidence: 'together',
    });
  });

  it('are read with who, why and until when, the command line after the file', () => {
    const { scenario } = readShipped(
      file,
      added(`waivers:
  - { limit: ac-ramp-100ms, reason: the utility agreed, by: reviewer, until: 2030-06-30 }
conditions:
  - holds for coolant up to 30 °C
cabinets_on_feeder: 20
coincidence: independent
`),
      { waivers: [{ limit: 'trim', reason: 'being retuned', by: null, until: null }] },
    );
    expect(scenario).toMatchObject({
      waivers: [
        { limit: 'ac-ramp-100ms', reason: 'the utility agreed', by: 'reviewer', until: '2030-06-30' },
        { limit: 'trim', reason: 'being retuned', by: null, until: null },
      ],
      conditions: ['holds for coolant up to 30 °C'],
      cabinets_on_feeder_count: 20,
      coincidence: 'independent',
    });
  });

  it('are refused with a day that no calendar has', () => {
    const waivers = 'waivers:\n  - { limit: trim, reason: being retuned, by: reviewer, until: 2030-02-31 }\n';
    expect(messageOf(added(waivers))).toMatch(/waivers\.1\.until\s+found\s+2030-02-31\s+expected\s+a day/);
  });

  it('are refused without a reason or a name, with a limit nobody knows, or a day that is none', () => {
    expect(
      messageOf(
        added(`waivers:
  - { limit: ac-ramp-100s, reason: "", by: reviewer }
  - { limit: trim, reason: being retuned, until: next year }
`),
      ),
    ).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:14:5  waivers
        found     ac-ramp-100s
        expected  the id of a limit of this cabinet
        mend      nearest: ac-ramp-100ms, ac-ramp-1s or ac-range-10s
      scenarios/pulse-train.yaml:14:36  waivers.1.reason
        found     nothing
        expected  why it may be waived
        mend      write it after the colon
      scenarios/pulse-train.yaml:15:5  waivers.2.by
        found     no by
        expected  who waives it: a role or initials
        mend      add a line by: … here
      scenarios/pulse-train.yaml:15:50  waivers.2.until
        found     next year
        expected  a day
        mend      write it like 2030-06-30
      4 problems in 1 file. Nothing was run."
    `);
  });

  it.each([
    ['conditions:\n  - ""\n', 'conditions.1'],
    ['conditions: ["holds for a day", " . "]\n', 'conditions.2'],
    ['conditions:\n  -\n', 'conditions.1'],
    ['waivers:\n  - { limit: trim, reason: " ", by: reviewer }\n', 'waivers.1.reason'],
    ['waivers:\n  - { limit: trim, reason: being retuned, by: "—" }\n', 'waivers.1.by'],
  ])('are refused where they say nothing: %j', (text, path) => {
    expect(messageOf(added(text))).toMatch(new RegExp(`${path}\\s+found\\s+nothing`));
  });

  it('of the command line are refused without a reason', () => {
    const waivers = [{ limit: 'trim', reason: ' - ', by: null, until: null }];
    expect(messageOf([], { waivers })).toMatch(/--waive {2}waivers\s+found\s+no reason/);
  });

  it('of the command line are refused where the limit is not known', () => {
    const waivers = [{ limit: 'trims', reason: 'x', by: null, until: null }];
    expect(messageOf([], { waivers })).toMatchInlineSnapshot(`
      "--waive  waivers
        found     trims
        expected  the id of a limit of this cabinet
        mend      nearest: trim
      1 problem. Nothing was run."
    `);
  });
});
