/** Rule lines of the first estimate, each beside the same reckoned by hand from the reference cabinet's values. */
import { describe, expect, it } from 'vitest';
import { estimate } from '../../../src/studies/estimate/estimate.ts';
import type { EstimateLine } from '../../../src/studies/estimate/line.ts';
import { changes, contextHere } from '../here.ts';

const { read } = contextHere();

/** The pulse train (100 to 240 kW, 1.6 s, 70 %, 5 ms) and a start from 31.2 to 240 kW within 5 ms. */
function madeWith(...more: readonly string[]) {
  return estimate([
    {
      name: 'pulses',
      read: read({ scenario: 'scenarios/pulse-train.yaml', changes: changes(...more) }),
    },
    {
      name: 'start',
      read: read({
        scenario: 'scenarios/single-step.yaml',
        changes: changes('load.before = 31.2 kW', 'load.edge = 5 ms', ...more),
      }),
    },
  ])!;
}

function lineOf(lines: readonly EstimateLine[], rule: number, title: string, about = ''): EstimateLine {
  const found = lines.find((line) => line.rule === rule && line.title === title && line.about === about);
  if (found === undefined) throw new Error(`no line ${rule} ${title} (${about})`);
  return found;
}

const made = madeWith();
/** Nine tenths of 162.5 F/2 · (43.2² − 28.8²), what one new tray gives between the ends of its schedule. */
const usable_J = 0.9 * 81.25 * (43.2 ** 2 - 28.8 ** 2);

describe('rule 4, start energy', () => {
  it('reckons the lag over the scheduled window, and says what half of it and a ramp would ask for', () => {
    const line = lineOf(made.lines, 4, 'Start energy', 'start');
    // 2.8 s · 208.8 kW = 584.64 kJ over 75.816 kJ; (208.8 kW)²/(2 · 80 kW/s) = 272.5 kJ.
    expect(line.trays).toBeCloseTo(584640 / usable_J, 9);
    expect(line.numbers).toBe(
      '2.8 s × 208.8 kW = 585 kJ (as a ramp at 80 kW/s 272 kJ); 585 kJ/75.8 kJ = 7.71 trays, from the middle 15.42',
    );
    expect(line.asks).toBe('8 trays');
  });

  it('reckons the ramp where the firmware is told to follow one', () => {
    const ramped = madeWith('firmware.smoothing.reference = source-ramp');
    const line = lineOf(ramped.lines, 4, 'Start energy', 'start');
    expect(line.trays).toBeCloseTo(208800 ** 2 / (2 * 80000) / usable_J, 9);
    expect(line.asks).toBe('4 trays');
  });
});

describe('rule 9, end of life', () => {
  it('takes the aged resistance through the ESR step', () => {
    // 20 kW/0.975 over 36 V are 569.8 A; through 4.8 mΩ 2.735 V, 1.558 kW.
    expect(lineOf(made.lines, 9, 'End of life: ESR step').numbers).toBe(
      '570 A through 4.80 mΩ: 2.735 V, 1.56 kW',
    );
  });

  it('says what the warmest coolant of the model asks for, without counting it', () => {
    // 45 °C leave 20 K of the 35 K to 65 °C: 7.31 · √(35/20) = 9.67.
    const line = lineOf(made.lines, 9, 'End of life, hot: RMS heating', 'pulses');
    expect(line.numbers).toContain('which requires 9.67');
    expect([line.asks, line.trays]).toEqual(['10 trays, only where coolant reaches 45 °C', null]);
  });

  it('says what cells at 0 °C ask for, without counting it', () => {
    // 95 % of 60.65 kJ: 584.64 kJ/57.62 kJ = 10.15.
    const line = lineOf(made.lines, 9, 'End of life, cold: start energy', 'start');
    expect(584640 / (0.95 * 0.9 * 65 * (43.2 ** 2 - 28.8 ** 2))).toBeCloseTo(10.146, 3);
    expect(line.numbers).toContain('585 kJ/57.6 kJ = 10.15 trays');
    expect(line.asks).toMatch(/^11 trays, only where cells are that cold; full power only above /);
    expect(line.trays).toBe(null);
  });
});

describe('rule 11, redundancy', () => {
  it('adds one to what the largest rule asks for', () => {
    // Start power: 208.8 kW/20 kW = 10.44, so eleven.
    expect(lineOf(made.lines, 11, 'Redundancy')).toMatchObject({
      numbers: '11 + 1 = 12 trays',
      asks: '12 trays, so that one may be out',
    });
  });

  it('says what a section that loses a tray lacks, and what it would take to stand alone', () => {
    // 10.44/2 = 5.22 a section; of twelve six, five left: 0.22 · 20 kW = 4.4 kW over the tie; alone 6 + 1.
    expect(lineOf(made.lines, 11, 'Redundancy of a section')).toMatchObject({
      numbers: '10.44/2 = 5.22 a section; with one out 5 left: 4.4 kW from the other',
      asks: '7 a section (14 trays) only where a section must do without the other',
    });
  });
});

describe('rule 12, safety factors', () => {
  it('puts each factor once on what its kind asks for, before rounding up', () => {
    // Aged: 584.64 kJ over 0.9 · 65 F · (43.2² − 28.8²) = 60.653 kJ is 9.639; × 1.25/0.9 = 13.388; and one spare.
    const energy = 584640 / (0.9 * 65 * (43.2 ** 2 - 28.8 ** 2));
    expect(Math.ceil((energy * 1.25) / 0.9 + 1)).toBe(15);
    expect(lineOf(made.lines, 12, 'Safety factors').numbers).toBe(
      'energy 9.64 × 1.25/0.9 = 13.39, power 10.44 × 1.1 = 11.48, RMS 7.31 × 1.15 = 8.40; the largest and one spare, rounded up: 15',
    );
    expect(made.withSpare).toBe(15);
  });

  it('asks for no tray where the signal is twice as late, but for one more closing check', () => {
    const line = lineOf(made.lines, 12, 'Safety factor: latency', 'pulses');
    // 0.25 ms of sampling, 0.5 ms of latency, 0.3 ms of the tray: 140 kW · 1.05 ms = 147 J, · 1.55 ms = 217 J.
    expect(line.numbers).toBe('1.05 ms as it is, 1.55 ms with 1 ms of latency: 147 J and 217 J of 140 kW');
    expect(line.trays).toBe(null);
    expect(line.asks).toContain('firmware.smoothing.latency = 1 ms');
  });
});

describe('rule 13, passive banks', () => {
  it('asks by the lumped dip, and places an even part in each section', () => {
    // 2.8 kA · 2/e over 2π · 749 Hz · (50.08 V − 46.5 V … less droop 0.2429 V): the scenario's own values.
    const line = lineOf(made.lines, 13, 'Passive bank');
    const C = ((2 / Math.E) * 2800) / (2 * Math.PI * 749 * (50.08 - 46.5 - 0.2429));
    expect(Number(/: (\d+) mF$/.exec(line.numbers)?.[1])).toBeCloseTo(1000 * C, 0);
    expect(lineOf(made.lines, 13, 'Banks: place').numbers).toBe('160 mF over 2: A 80 mF (K1), B 80 mF (K2)');
  });

  it('asks for a bank where a section has none', () => {
    const bare = madeWith('banks.count = 1');
    expect(lineOf(bare.lines, 13, 'Banks: place').asks).toBe('a bank for section B');
  });

  it('gives each bank its part of the edge by its part of the capacitance', () => {
    // 140 kW/50 V = 2.8 kA; 80 mF of 469 mF: 478 A; through 0.4 + 0.01 mΩ 196 mV; 30 nH · 478 A/5 ms = 2.9 mV.
    expect(lineOf(made.lines, 13, 'Banks: peak current, ESR, ESL', 'pulses').numbers).toBe(
      'K1: 2.8 kA × 80 mF/469 mF = 478 A; 410 µΩ × 478 A = 195.8 mV, 30 nH × 478 A/5 ms = 2.866 mV',
    );
    expect(2800 * (80 / 469)).toBeCloseTo(477.6, 1);
  });

  it('finds the ripple of two edges a period far below the rating', () => {
    // 80 mF · 0.2429 V · √(2π · 749 Hz/1.6 s) = 1.054 A.
    expect(0.08 * 0.2429 * Math.sqrt((2 * Math.PI * 749) / 1.6)).toBeCloseTo(1.054, 3);
    expect(lineOf(made.lines, 13, 'Banks: ripple', 'pulses')).toMatchObject({
      numbers: 'K1: 80 mF × 242.9 mV × √(ω_c/1.6 s) = 1.05 A against 150 A',
      asks: 'nothing more',
    });
  });

  it('warns of the bare connection onto a live bus and sizes the resistor for a precharge in a second', () => {
    // 50 V/0.41 mΩ = 122 kA; 80 mF · 50²/2 = 100 J; 1 s/(5 · 80 mF) = 2.5 Ω, 20 A at first.
    expect(lineOf(made.lines, 13, 'Banks: inrush').numbers).toBe(
      'K1: 50 V/410 µΩ = 122 kA; 100 J through 2.5 Ω in 1 s, 20 A at first',
    );
  });

  it('says nothing of banks that are not there', () => {
    const none = madeWith('banks.K1.fitted = no', 'banks.K2.fitted = no');
    expect(none.lines.filter(({ title }) => title.startsWith('Banks'))).toEqual([]);
  });
});

it('rule 10 goes by the law of the run, and says which of the two decides', () => {
  const life = lineOf(made.lines, 10, 'Life', 'pulses');
  expect(life.asks).toMatch(
    /^about \d\.\d years of pulses without a pause; the life that a run tells beside its verdict stands over this/,
  );
  // 36.71 V over 16 cells are 405 mV below 2.7 V: 0.4 V of them count, 1.3^4 = 2.86; 25.7 K cooler 2^2.57 = 5.9.
  expect(life.numbers).toContain('× 5.9; half charge 36.71 V over 16 cells: 405.4 mV below rated, × 2.9');
});
