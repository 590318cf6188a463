/**
 * Networks of R, L and C against textbook solutions.
 *
 * Sources: J. W. Nilsson and S. A. Riedel, Electric Circuits, chapter 8, examples 8.2 to 8.12 (numbers as
 * remembered from the 10th and 12th editions; each was checked against its own differential equation);
 * C. K. Alexander and M. N. O. Sadiku, Fundamentals of Electric Circuits, example 8.7; the one-step factors of
 * the trapezoid are arithmetic, ((1 − h/2)/(1 + h/2))^n.
 *
 * Tolerance: the trapezoid leaves (λh)²/12 per time constant; steps are a 2000th of the shortest time constant,
 * so 1e-6 of the amplitude. Where a book rounds its answer the exact amplitude is used and named.
 */
import { describe, expect, it } from 'vitest';
import { Circuit, ideal, type Parts } from './circuit.ts';
import { published } from './published.ts';

interface Case {
  readonly name: string;
  readonly parts: Parts;
  /** What is looked at. */
  readonly read: (c: Circuit) => number;
  readonly exact: (t: number) => number;
  /** Largest value it reaches; the error is taken over it. */
  readonly amplitude: number;
  readonly step_s: number;
  readonly end_s: number;
}

const { exp, sin, cos, sqrt } = Math;

/** C with R and L in parallel, all from node 0 to a node held at zero; the inductor is bar 0. */
function parallel(R: number, L: number, C: number, v: number, i: number): Parts {
  return {
    nodes: 2,
    held: [{ node: 1, voltage_V: 0 }],
    bars: [
      { from: 0, to: 1, R: 0, L, i },
      // A resistor: its own inductance gives it a pole a million times faster than the circuit's.
      { from: 0, to: 1, R, L: R * 1e-12, i: v / R },
    ],
    capacitors: [{ node: 0, C, r: ideal * R, u: v }],
  };
}

/** The same, driven by a current step: a source far away, V through R_s with V/R_s = I. */
function driven(R: number, L: number, C: number, I: number): Parts {
  const far = 1e9;
  return {
    ...parallel(R, L, C, 0, 0),
    nodes: 3,
    held: [
      { node: 1, voltage_V: 0 },
      { node: 2, voltage_V: I * far },
    ],
    bars: [
      { from: 0, to: 1, R: 0, L },
      { from: 0, to: 1, R, L: R * 1e-12 },
      { from: 2, to: 0, R: far, L: far * 1e-12, i: I },
    ],
  };
}

/** R, L and C in series from a node held at V: a bank. Its current is positive into the node. */
function series(V: number, R: number, L: number, C: number, u: number, i: number): Parts {
  return { nodes: 1, held: [{ node: 0, voltage_V: V }], banks: [{ node: 0, R, L, C, u, i: -i }] };
}

const node0 = (c: Circuit): number => c.voltage(0);
const coil = (c: Circuit): number => c.state(c.network.bars, 0);
const bankVoltage = (c: Circuit): number => c.state(c.network.banks, 1);
const bankCurrent = (c: Circuit): number => -c.state(c.network.banks, 0);

const cases: readonly Case[] = [
  {
    name: 'RC charge',
    parts: {
      nodes: 2,
      held: [{ node: 1, voltage_V: 10 }],
      bars: [{ from: 1, to: 0, R: 100, L: 1e-10, i: 0.1 }],
      capacitors: [{ node: 0, C: 1e-3, r: ideal * 100, u: 0 }],
    },
    read: node0,
    exact: (t) => 10 * (1 - exp(-t / 0.1)),
    amplitude: 10,
    step_s: 5e-5,
    end_s: 0.3,
  },
  {
    name: 'RL step',
    parts: {
      nodes: 2,
      held: [
        { node: 0, voltage_V: 0 },
        { node: 1, voltage_V: 10 },
      ],
      bars: [{ from: 1, to: 0, R: 5, L: 0.5 }],
    },
    read: coil,
    exact: (t) => 2 * (1 - exp(-t / 0.1)),
    amplitude: 2,
    step_s: 5e-5,
    end_s: 0.3,
  },
  {
    name: 'Nilsson and Riedel 8.2, parallel, overdamped',
    parts: parallel(200, 50e-3, 0.2e-6, 12, 30e-3),
    read: node0,
    exact: (t) => -14 * exp(-5000 * t) + 26 * exp(-20000 * t),
    amplitude: 12,
    step_s: 2.5e-8,
    end_s: 5e-4,
  },
  {
    name: 'Nilsson and Riedel 8.4, parallel, underdamped (book: 100 V; exact amplitude 100.0208 V)',
    parts: parallel(20e3, 8, 0.125e-6, 0, -12.25e-3),
    read: node0,
    exact: (t) => (12.25e-3 / 0.125e-6 / sqrt(1e6 - 200 * 200)) * exp(-200 * t) * sin(sqrt(1e6 - 4e4) * t),
    amplitude: 100,
    step_s: 5e-7,
    end_s: 5e-3,
  },
  {
    name: 'Nilsson and Riedel 8.5, parallel, critical',
    parts: parallel(4e3, 8, 0.125e-6, 0, -12.25e-3),
    read: node0,
    exact: (t) => 98000 * t * exp(-1000 * t),
    amplitude: 36,
    step_s: 5e-7,
    end_s: 5e-3,
  },
  {
    name: 'Nilsson and Riedel 8.6, parallel step, overdamped',
    parts: driven(400, 25e-3, 25e-9, 24e-3),
    read: coil,
    exact: (t) => 1e-3 * (24 - 32 * exp(-20000 * t) + 8 * exp(-80000 * t)),
    amplitude: 24e-3,
    step_s: 6e-9,
    end_s: 1.2e-4,
  },
  {
    name: 'Nilsson and Riedel 8.7, parallel step, underdamped',
    parts: driven(625, 25e-3, 25e-9, 24e-3),
    read: coil,
    exact: (t) => 1e-3 * (24 - exp(-32000 * t) * (24 * cos(24000 * t) + 32 * sin(24000 * t))),
    amplitude: 24e-3,
    step_s: 6e-9,
    end_s: 1.2e-4,
  },
  {
    name: 'Nilsson and Riedel 8.8, parallel step, critical',
    parts: driven(500, 25e-3, 25e-9, 24e-3),
    read: coil,
    exact: (t) => 1e-3 * (24 - (960000 * t + 24) * exp(-40000 * t)),
    amplitude: 24e-3,
    step_s: 6e-9,
    end_s: 1.2e-4,
  },
  {
    name: 'Nilsson and Riedel 8.11, series: capacitor voltage',
    parts: series(0, 560, 0.1, 0.1e-6, 100, 0),
    read: bankVoltage,
    exact: (t) => (100 * cos(9600 * t) + (280 / 9.6) * sin(9600 * t)) * exp(-2800 * t),
    amplitude: 100,
    step_s: 5e-8,
    end_s: 1e-3,
  },
  {
    name: 'Nilsson and Riedel 8.11, series: current',
    parts: series(0, 560, 0.1, 0.1e-6, 100, 0),
    read: bankCurrent,
    exact: (t) => -(100 / 0.1 / 9600) * exp(-2800 * t) * sin(9600 * t),
    amplitude: 0.104167,
    step_s: 5e-8,
    end_s: 1e-3,
  },
  {
    name: 'Nilsson and Riedel 8.12, series step, underdamped',
    parts: series(48, 280, 0.1, 0.4e-6, 0, 0),
    read: bankVoltage,
    exact: (t) => 48 - exp(-1400 * t) * (48 * cos(4800 * t) + 14 * sin(4800 * t)),
    amplitude: 48,
    step_s: 1e-7,
    end_s: 2e-3,
  },
  {
    name: 'Nilsson and Riedel 8.12, data of the 12th edition, overdamped',
    parts: series(48, 1250, 0.1, 0.4e-6, 0, 0),
    read: bankVoltage,
    exact: (t) => 48 - 64 * exp(-2500 * t) + 16 * exp(-10000 * t),
    amplitude: 48,
    step_s: 5e-8,
    end_s: 1e-3,
  },
  {
    name: 'Alexander and Sadiku 8.7, R = 5',
    parts: series(24, 5, 1, 0.25, 4, 4),
    read: bankVoltage,
    exact: (t) => 24 + (4 / 3) * (-16 * exp(-t) + exp(-4 * t)),
    amplitude: 24,
    step_s: 1.25e-4,
    end_s: 3,
  },
  {
    name: 'Alexander and Sadiku 8.7, R = 4',
    parts: series(24, 4, 1, 0.25, 4.8, 4.8),
    read: bankVoltage,
    exact: (t) => 24 - 19.2 * (1 + t) * exp(-2 * t),
    amplitude: 24,
    step_s: 2.5e-4,
    end_s: 3,
  },
  {
    name: 'Alexander and Sadiku 8.7, R = 1 (book: 21.694 and 1.936; exact 21.6887 and 1.936492)',
    parts: series(24, 1, 1, 0.25, 12, 12),
    read: bankVoltage,
    exact: (t) => {
      const w = sqrt(3.75);
      return 24 + exp(-0.5 * t) * (-12 * cos(w * t) + ((48 - 6) / w) * sin(w * t));
    },
    amplitude: 36,
    step_s: 2.5e-4,
    end_s: 5,
  },
  {
    name: 'series step of lecture notes: 10 V, 0.1 H, 20 Ω, 100 µF, peak 0.208537 A at 4.16349 ms',
    parts: series(10, 20, 0.1, 100e-6, 0, 0),
    read: bankCurrent,
    exact: (t) => exp(-100 * t) * sin(300 * t) * (10 / 0.1 / 300),
    amplitude: 0.208537,
    step_s: 1e-6,
    end_s: 0.02,
  },
];

interface Worst {
  readonly expected: number;
  readonly found: number;
  readonly time_s: number;
}

/** Where the run is furthest from the solution. `times` makes the step longer. */
function worstOf({ parts, read, exact, step_s, end_s }: Case, times: number): Worst {
  const c = new Circuit(parts, step_s * times);
  const here = (): Worst => ({ expected: exact(c.time_s), found: read(c), time_s: c.time_s });
  const size = ({ expected, found }: Worst): number => Math.abs(found - expected);
  let worst = here();
  const every = Math.max(1, Math.round(end_s / (step_s * times) / 400));
  for (let k = 1; c.time_s < end_s; k++) {
    c.step();
    if (k % every === 0 && size(here()) > size(worst)) worst = here();
  }
  return worst;
}

/** Largest error over the run, over the amplitude. */
function error(one: Case, times: number): number {
  const { expected, found } = worstOf(one, times);
  return Math.abs(found - expected) / one.amplitude;
}

const books: readonly (readonly [begins: string, source: string])[] = [
  ['Nilsson', 'Nilsson and Riedel, Electric Circuits, ch. 8'],
  ['Alexander', 'Alexander and Sadiku, Fundamentals of Electric Circuits, ex. 8.7'],
  ['RC', 'exponential'],
  ['RL', 'exponential'],
  ['series', 'public lecture notes'],
];
const circuits = new Map(
  books.map(([begins, source]) => {
    const what =
      begins.length > 2 ? `R, L and C: ${begins === 'series' ? 'series step' : begins}` : `${begins} step`;
    return [begins, published({ what, source })] as const;
  }),
);
const peaks = published({
  what: 'R, L and C: peak of the series step',
  source: 'public lecture notes',
  unit: 'A',
});
const factors = published({ what: 'one-step factor of the trapezoid', source: '((1 − h/2)/(1 + h/2))^n' });

describe('textbook circuits', () => {
  it.each(cases.map((c) => [c.name, c] as const))('%s', (name, c) => {
    const { expected, found, time_s } = worstOf(c, 1);
    const short = name.replace(/^(Nilsson and Riedel|Alexander and Sadiku) /, '').replace(/[ :(].*/, '');
    const row = circuits.get(books.find(([begins]) => name.startsWith(begins))![0])!;
    row({
      which: `${short.replace(',', '')}, at ${Number(time_s.toPrecision(3))} s`,
      expected,
      found,
      tolerance: 1e-6,
      scale: c.amplitude,
    });
  });

  it('converge with second order', () => {
    const names = ['8.11, series: capacitor voltage', '8.12, series step', 'R = 1 (book', 'RL step'];
    for (const name of names) {
      const c = cases.find((one) => one.name.includes(name))!;
      const gain = error(c, 64) / error(c, 32);
      expect(gain, c.name).toBeGreaterThan(3.8);
      expect(gain, c.name).toBeLessThan(4.2);
    }
  });

  it("have the book's peak at its time", () => {
    const c = new Circuit(cases.at(-1)!.parts, 1e-6);
    let peak = 0;
    let at = 0;
    while (c.time_s < 0.01) {
      c.step();
      if (bankCurrent(c) <= peak) continue;
      peak = bankCurrent(c);
      at = c.time_s;
    }
    peaks({ which: '10 V, 0.1 H, 20 Ω, 100 µF', expected: 0.208537, found: peak, tolerance: 2.5e-6 });
    expect(at).toBeCloseTo(4.16349e-3, 5);
  });
});

describe('one-step factor of the trapezoid', () => {
  // y' = −y from 1 over one second: the exact value is 0.367879441171, these are the trapezoid's own.
  it.each([
    [10, 0.367572542383],
    [20, 0.367802778857],
    [40, 0.367860279486],
  ])('over %i steps', (steps, value) => {
    const c = new Circuit(
      {
        nodes: 2,
        held: [{ node: 1, voltage_V: 0 }],
        // The capacitor's own resistance is the R of the RC: its node is held at zero.
        capacitors: [{ node: 0, C: 1, r: 1, u: 1 }],
        bars: [{ from: 0, to: 1, R: 0, L: 1e-13, i: 1 }],
      },
      1 / steps,
    );
    c.stepper.v0[0] = 0;
    c.reach(1);
    factors({
      which: `${steps} steps`,
      expected: value,
      found: c.state(c.network.capacitors, 0),
      tolerance: 1e-11,
    });
  });
});
