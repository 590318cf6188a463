import { describe, expect, it } from 'vitest';
import { messageOf, readShipped } from './shipped.ts';

const pulse = 'scenarios/pulse-train.yaml';
const cabinet = 'models/reference-cabinet.yaml';
const tray = 'models/tray-20kw.yaml';
const limits = 'models/limits-default.yaml';
const firmware = 'models/firmware-reference.yaml';

describe('bad input is refused with place, found, expected and mend', () => {
  it('a typo in a key', () => {
    expect(messageOf([[pulse, '  duty: 70 %', '  dutty: 70 %']])).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:17:3  load.duty
        found     no duty
        expected  share of the period at the upper level
        mend      add a line duty: … here
      scenarios/pulse-train.yaml:21:3  load.dutty
        found     key dutty
        expected  one of kind, low, high, period, duty, edge, spread, scatter or jitter
        mend      did you mean duty?
      2 problems in 1 file. Nothing was run."
    `);
  });

  it.each([
    ['scenarios/studies/faults.yaml', 'a study, by its key study'],
    [cabinet, 'a cabinet, by its key sections'],
    [tray, 'a model, by its key model'],
  ])('%s in place of a scenario, as what it is', (file, is) => {
    let said = '';
    try {
      readShipped(file);
    } catch (error) {
      said = (error as Error).message;
    }
    expect(said).toContain(`found     ${is}\n  expected  a scenario`);
    expect(said).toContain('1 problem in 1 file.');
  });

  it('a wrong unit', () => {
    expect(messageOf([[pulse, 'high: 240 kW', 'high: 240 kV']])).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:19:9  load.high
        found     240 kV, which is a voltage
        expected  a power, for example 36 kW
        mend      write it like 36 kW
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('no unit', () => {
    expect(messageOf([[pulse, 'period: 1.6 s', 'period: 1.6']])).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:20:11  load.period
        found     1.6, a number without a unit
        expected  a time, for example 0.5 ms
        mend      write it like 0.5 ms
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a negative capacitance', () => {
    expect(messageOf([[tray, 'value: 162.5 F', 'value: -162.5 F']])).toMatchInlineSnapshot(`
      "models/tray-20kw.yaml:8:25  capacitance
        found     -162.5 F
        expected  a capacitance above 0
        mend      usually 30 F to 400 F
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a key a second time', () => {
    expect(
      messageOf([[pulse, 'start: converged-cycle', 'duration: 20 s\nstart: converged-cycle']]),
    ).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:14:1
        found     duration a second time
        expected  each key once
        mend      keep one of the two duration
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a number that is not finite', () => {
    expect(
      messageOf([
        [pulse, 'high: 240 kW', 'high: 1e999 kW'],
        [pulse, 'low: 100 kW', 'low: .inf'],
      ]),
    ).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:18:8  load.low
        found     .inf, which does not begin with a number
        expected  a power, for example 36 kW
        mend      write it like 36 kW
      scenarios/pulse-train.yaml:19:9  load.high
        found     1e999 kW, which is too large for a number
        expected  a power, for example 36 kW
        mend      write it like 36 kW
      2 problems in 1 file. Nothing was run."
    `);
  });

  it('text that is no YAML', () => {
    expect(messageOf([[pulse, 'start: converged-cycle', 'start: [converged-cycle']])).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:16:1
        found     Flow sequence in block collection must be sufficiently indented and end with a ]
        expected  readable YAML
        mend      correct the text at this place
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a unit placed but not defined, and one defined but not placed', () => {
    expect(messageOf([[cabinet, 'A: [S1, T1,', 'A: [S1, T11,']])).toMatchInlineSnapshot(`
      "models/reference-cabinet.yaml:19:11  sections.A
        found     unit T11
        expected  a unit that the cabinet defines
        mend      nearest: T1, T10, B1
      models/reference-cabinet.yaml:51:11  T1
        found     unit T1 without a place
        expected  a place in a section
        mend      add T1 to sections
      2 problems in 1 file. Nothing was run."
    `);
  });

  it('an event for a unit that does not exist, or of the wrong kind', () => {
    const events =
      'events: [{ at: 1 s, what: tray-out, unit: T44 }, { at: 2 s, what: shelf-trip, unit: T4 }]\nload:';
    expect(messageOf([[pulse, 'load:', events]])).toMatchInlineSnapshot(`
      "scenarios/pulse-train.yaml:16:43  events.1.unit
        found     unit T44
        expected  for tray-out one of T1, T2, T3, T4, T5, T6, T7, T8, T9 or T10
        mend      nearest: T4, T1, T10
      scenarios/pulse-train.yaml:16:85  events.2.unit
        found     unit T4
        expected  for shelf-trip one of S1, S2, S3, S4, S5, S6, S7 or S8
        mend      nearest: S4, S1, S2
      2 problems in 1 file. Nothing was run."
    `);
  });

  it('a period that is not whole ticks', () => {
    expect(
      messageOf([[firmware, 'period: { value: 10 ms', 'period: { value: 10.0001 ms']]),
    ).toMatchInlineSnapshot(`
      "models/firmware-reference.yaml:9:22  firmware.share.period
        found     10.0001 ms
        expected  a whole number of ticks of 250 ns
        mend      write 10 ms or 10.00025 ms
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('event times and edges between two ticks', () => {
    const changes = [
      { path: 'events.1.at', value: '5.00000011 s' },
      { path: 'load.edge', value: '5.1 µs' },
    ];
    expect(messageOf([], { changes }, 'scenarios/tray-out.yaml')).toMatchInlineSnapshot(`
      "warning  --set  load.edge
        found     5.1 µs
        expected  usually 100 µs to 1 s (duration of an edge)
        mend      keep it if it is meant
      --set  load.edge
        found     5.1 µs
        expected  a whole number of ticks of 250 ns
        mend      write 5 µs or 5.25 µs
      --set  events.1.at
        found     5.00000011 s
        expected  a whole number of ticks of 250 ns
        mend      write 5 s or 5.00000025 s
      2 problems. Nothing was run."
    `);
  });

  it('a rack without a link', () => {
    expect(
      messageOf([], { changes: [{ path: 'bars.links.closed', value: 'false' }] }),
    ).toMatchInlineSnapshot(`
      "models/reference-cabinet.yaml:70:5  bars.links
        found     a rack bar that no closed link bar feeds
        expected  a way from a shelf over closed bars to every node
        mend      close or add a link bar, or the tie
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a link to a place that does not exist', () => {
    expect(
      messageOf([
        [cabinet, 'section: A, place: 1, rack: 1', 'section: A, place: 14, rack: 17'],
        [cabinet, 'section: B, place: 1', 'section: C, place: 1'],
      ]),
    ).toMatchInlineSnapshot(`
      "models/reference-cabinet.yaml:26:31  bars.links.LA1.place
        found     place 14
        expected  1 to 13, the places of section A
        mend      name one that exists
      models/reference-cabinet.yaml:26:41  bars.links.LA1.rack
        found     rack 17
        expected  1 to 16, the nodes of the rack bar, one per sled
        mend      name one that exists
      models/reference-cabinet.yaml:28:21  bars.links.LB1.section
        found     section C
        expected  A or B
        mend      name one of them
      3 problems in 1 file. Nothing was run."
    `);
  });

  it('a file that is not there', () => {
    expect(messageOf([[cabinet, 'model: tray-20kw.yaml', 'model: tray-21kw.yaml']])).toMatchInlineSnapshot(`
      "models/reference-cabinet.yaml:50:10  trays.T1.model
        found     no file models/tray-21kw.yaml
        expected  a file that can be read
        mend      names are relative to the file that contains them; correct the name or add the file
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a scenario that is not there', () => {
    expect(messageOf([], {}, 'scenarios/none.yaml')).toMatchInlineSnapshot(`
      "input
        found     no file scenarios/none.yaml
        expected  a file that can be read
        mend      names are relative to the file that contains them; correct the name or add the file
      1 problem. Nothing was run."
    `);
  });

  it('a model of another kind', () => {
    expect(messageOf([[cabinet, 'model: tray-20kw.yaml', 'model: bank-80mf.yaml']])).toMatchInlineSnapshot(`
      "models/bank-80mf.yaml:3:8  model
        found     a model of kind bank
        expected  a model of kind tray
        mend      name another file, or write model: tray
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('a number without a source, a source without its reason', () => {
    expect(
      messageOf([
        [tray, '{ value: 43.2 V, source: derived, why: "16 cells of 2.7 V" }', '43.2 V'],
        [tray, 'value: 3 mA, source: assumed,', 'value: 3 mA,'],
        [tray, 'value: 60 W, source: assumed, why:', 'value: 60 W, source: published, why:'],
      ]),
    ).toMatchInlineSnapshot(`
      "models/tray-20kw.yaml:10:18  rated_voltage
        found     43.2 V, without a source
        expected  a value with its source
        mend      write { value: 43.2 V, source: assumed, why: … }
      models/tray-20kw.yaml:12:12  leakage
        found     no source
        expected  published with citation, or derived, assumed or measured with why
        mend      add source: assumed, why: … if it is not published
      models/tray-20kw.yaml:23:18  standing_loss
        found     source published without citation
        expected  a citation that others can look up
        mend      add citation: …
      3 problems in 1 file. Nothing was run."
    `);
  });

  it('a number that the model leaves out', () => {
    expect(messageOf([[tray, '  power_lag:', '  # power_lag:']])).toMatchInlineSnapshot(`
      "models/tray-20kw.yaml:8:3  power_lag
        found     no power_lag
        expected  lag of the bus power
        mend      add a line power_lag: … here
      1 problem in 1 file. Nothing was run."
    `);
  });

  it('an unknown path of a change, with the nearest ones', () => {
    const changes = [
      { path: 'trays.capactance', value: '100 F' },
      { path: 'trays.T40.capacitance', value: '100 F' },
      { path: 'ageing.tray', value: 'end-of-life' },
    ];
    expect(messageOf([], { changes })).toMatchInlineSnapshot(`
      "--set  trays.capactance
        found     path trays.capactance
        expected  a path of the scenario, for example trays.capacitance or trays.T4.capacitance
        mend      nearest: trays.capacitance, trays.T1.capacitance, trays.T2.capacitance
      --set  trays.T40.capacitance
        found     path trays.T40.capacitance
        expected  a path of the scenario, for example trays.capacitance or trays.T4.capacitance
        mend      nearest: trays.T10.capacitance, trays.T4.capacitance, trays.T1.capacitance
      --set  ageing.tray
        found     tray
        expected  a kind of unit or a unit
        mend      nearest: trays
      3 problems. Nothing was run."
    `);
  });

  it('a change with a bad value, once for a whole kind', () => {
    const changes = [{ path: 'trays.capacitance', value: '-3 F' }];
    expect(messageOf([], { changes })).toMatchInlineSnapshot(`
      "--set  trays.capacitance
        found     -3 F
        expected  a capacitance above 0
        mend      usually 30 F to 400 F
      1 problem. Nothing was run."
    `);
  });

  it('an added event that cannot happen', () => {
    const changes = [
      { path: 'events.add', value: 'tray-out T4' },
      { path: 'events.add', value: 'tray-gone T4 at 5' },
      { path: 'trays.T5.fitted', value: 'no' },
      { path: 'events.add', value: 'tray-out T5 at 5 s' },
    ];
    expect(messageOf([], { changes })).toMatchInlineSnapshot(`
      "--set  events.add
        found     tray-out T4
        expected  what happens, to which unit, and when
        mend      write it like tray-out T4 at 5 s
      --set  events.2.what
        found     tray-gone
        expected  shelf-trip, shelf-join, module-out, set-point-shift, sensor-shift, share-out, reverse-feed, coolant-loss, tray-out, tray-stuck, charge-shift, bank-out, bank-short, battery-fail, battery-late, bar-out, joint-aged, ac-loss, ac-return, ac-sag, ac-swell, phase-loss, signal-lost, signal-frozen, signal-late, signal-jitter, signal-scaled, signal-stuck, sled-short, sled-off, sled-on or brake
        mend      did you mean tray-out?
      --set  events.2.at
        found     5, a number without a unit
        expected  a time, for example 0.5 ms
        mend      write it like 0.5 ms
      --set  events.3.unit
        found     unit T5
        expected  for tray-out one of T1, T2, T3, T4, T6, T7, T8, T9 or T10
        mend      nearest: T1, T2, T3
      4 problems. Nothing was run."
    `);
  });

  it('values that contradict each other', () => {
    const changes = [
      { path: 'trays.voltage_low', value: '50 V' },
      { path: 'shelves.S2.bulk_voltage_min', value: '430 V' },
      { path: 'load.low', value: '250 kW' },
      { path: 'load.edge', value: '0.6 s' },
      { path: 'load.jitter', value: '10 ms' },
      { path: 'warm_up', value: '30 s' },
    ];
    expect(messageOf([], { changes })).toMatchInlineSnapshot(`
      "--set  trays.voltage_low
        found     50 V
        expected  below voltage_high, which is 43.2 V
        mend      lower voltage_low or raise voltage_high
      --set  shelves.S2.bulk_voltage_min
        found     430 V
        expected  below bulk_voltage, which is 420 V
        mend      lower bulk_voltage_min or raise bulk_voltage
      --set  warm_up
        found     30 s
        expected  shorter than the run of 30 s
        mend      shorten it
      --set  load.low
        found     250 kW
        expected  at most high, 240 kW
        mend      swap them
      --set  load.edge
        found     600 ms
        expected  at most the shorter part of the period, 480 ms
        mend      shorten the edge
      scenarios/pulse-train.yaml:14:8  start
        found     converged-cycle with a load that does not repeat (pulse-train)
        expected  a pulse train without jitter
        mend      write start: settled
      6 problems in 1 file. Nothing was run."
    `);
  });

  it('a recorded load without its scale, or against time', () => {
    const recorded = { file: 'scenarios/loads/training-two-accelerators-50hz.csv', from: '5 s', to: '4 s' };
    expect(messageOf([], { recorded })).toMatchInlineSnapshot(`
      "command line  load.reading.at
        found     no at
        expected  what was measured
        mend      state at on the command line
      command line  load.reading.side
        found     no side
        expected  side that was measured
        mend      state side on the command line
      command line  load.from
        found     5 s
        expected  before the end of the stretch, 4 s
        mend      start earlier, or end later
      command line  load.peak
        found     neither peak nor scale
        expected  one of them
        mend      write peak: 200 kW, or scale: 1 to play it as recorded
      4 problems. Nothing was run."
    `);
  });

  it('a limit row that cannot be read', () => {
    expect(
      messageOf([
        [limits, 'side: lower', 'side: low'],
        [limits, 'band: 0.1 Hz to 0.5 Hz', 'band: 0.5 Hz to 0.1 Hz'],
        [limits, 'normal: 12 %', 'normal: 12 V'],
      ]),
    ).toMatchInlineSnapshot(`
      "models/limits-default.yaml:28:11  limits.bus-steady-low.side
        found     low
        expected  upper or lower
        mend      did you mean lower?
      models/limits-default.yaml:153:11  limits.ac-ripple-0.1-0.5.band
        found     0.5 Hz to 0.1 Hz
        expected  a low and a higher frequency
        mend      write 0.5 Hz to 3 Hz
      models/limits-default.yaml:154:13  limits.ac-ripple-0.1-0.5.normal
        found     12 V, which is a voltage
        expected  a ratio, for example 0.7 or 70 %
        mend      write it like 0.7 or 70 %
      3 problems in 1 file. Nothing was run."
    `);
  });

  it('an event after the end of the run only draws a warning', () => {
    const changes = [{ path: 'events.1.at', value: '31 s' }];
    const { warnings } = readShipped('scenarios/tray-out.yaml', [], { changes });
    expect(warnings.map(({ path, found, expected }) => `${path}: ${found}, ${expected}`)).toEqual([
      'events.1.at: tray-out at 31 s, within the run of 30 s',
    ]);
  });

  it('a limits file that an option names is looked for from where the command was given', () => {
    let said = '';
    try {
      readShipped(pulse, [], { changes: [{ path: 'limits', value: 'nowhere.yaml' }] });
    } catch (error) {
      said = (error as Error).message;
    }
    expect(said).toContain('no file nowhere.yaml');
    expect(said).toContain('names are relative to where the command was given;');
    expect(messageOf([[cabinet, 'limits: limits-default.yaml', 'limits: nowhere.yaml']])).toContain(
      'names are relative to the file that contains them;',
    );
  });
});
