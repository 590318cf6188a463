/**
 * What a supplier must meet for the chosen point to hold, and how that is tested: each parameter of the box
 * about it as a line with its measurement, and the set-point accuracy that the share loop needs.
 */
import { digits } from '../../base/digits.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { staticDroop_ohm } from '../../scenario/static-droop.ts';
import type { Acceptance } from './accept.ts';
import type { BoxSide, Face } from './box.ts';
import type { Recommendation } from './recommend.ts';

export interface Requirement {
  readonly path: string;
  /** For example `at most 22 ms`. */
  readonly text: string;
  readonly why: string;
  /** What to measure, where, and the band expected. */
  readonly test: string;
}

/** How a parameter is measured. Common practice, no source. */
const measured: Readonly<Record<string, string>> = {
  control_delay:
    'shelf on the bench: step the sensed voltage by 50 mV, take the time until the current command moves (scope on sense line and current monitor)',
  proportional_gain:
    'shelf on the bench, current limited load: sine of 20 mV on the sense line at 2 kHz, ratio of current to voltage',
  integral_gain: 'shelf on the bench: sine of 20 mV on the sense line at 20 Hz and 200 Hz, fit the corner',
  droop:
    'shelf on the bench: output voltage at 10, 50 and 100 % load after 1 s, slope of the line through them',
  droop_filter_time:
    'shelf on the bench: load step of 20 %, time constant of the droop part after the first peak',
  slew_limit: 'shelf on the bench: load step of 100 % in 10 µs, steepest slope of the output current',
  output_esr:
    'shelf switched off: impedance of its output at 10 kHz at the terminals, at the lowest and highest temperature',
  output_capacitance: 'shelf switched off: impedance of its output at 100 Hz at the terminals',
  latency:
    'two frames with time stamps: from the moment of sampling to the moment the value is used; the longest of 10 000',
  period: 'frame counter over 10 s against a clock',
  time_constant:
    'cabinet at half load: move one set point by 50 mV, time until the share error has fallen to 37 %',
  filter_corner: 'sine of 5 % on the load at the corner: the measured signal is 3 dB down',
  trim_quantum: 'set-point register: smallest change of the output voltage at no load',
};

export function requirementsOf(
  scenario: Scenario,
  recommended: Recommendation | null,
  acceptance: Acceptance,
  leaves_ratio: number | null,
): Requirement[] {
  return [
    ...(recommended === null ? [] : boxLines(recommended)),
    ...setPoints(scenario, acceptance, leaves_ratio),
  ];
}

/** The lines of a box hold together: each is met while the other is. */
function boxLines({ box, changes }: Recommendation): Requirement[] {
  return box.sides.map((side, k): Requirement => {
    const { path, low, high } = side;
    const chosen = changes[k]!.value;
    if (low.value === high.value && (low.fails !== null || high.fails !== null)) return coarse(side, chosen);
    const other = box.sides[1 - k]!;
    const text = `from ${low.text} to ${high.text}`;
    const told = [
      // Below nothing there is nothing.
      ...(low.fails === null && low.value === 0 ? [] : [faceWords('below', low)]),
      faceWords('above', high),
    ].join('; ');
    return {
      path,
      text: `${text}, while ${other.path} is from ${other.low.text} to ${other.high.text}`,
      why: `all ${box.points} points of the map in this box are acceptable, ${insideWords(box)}; ${told}`,
      test: `${measured[path.split('.').at(-1)!] ?? `measure ${path} on a finished unit`}; expected ${text}, nominal ${chosen}`,
    };
  });
}

/** What was run in the box beside the points of the map. */
function insideWords({ between }: Recommendation['box']): string {
  return between === 0
    ? 'corners and faces among them; between them nothing was run'
    : `and ${between} between them, corners, faces and a filling sample`;
}

function faceWords(side: 'below' | 'above', { text, fails }: Face): string {
  if (fails === null) return `${side} ${text} the map ends, and nothing is known`;
  return `${side} it fails, at ${fails.map(({ path, value }) => `${path} ${value}`).join(' with ')}`;
}

function coarse({ path, low, high }: BoxSide, chosen: string): Requirement {
  const beyond = [low, high].flatMap(({ fails }) => fails?.filter((change) => change.path === path) ?? []);
  const ends = beyond.map(({ value }) => value).join(' and ');
  return {
    path,
    text: 'no requirement: the grid is too coarse',
    why: `${chosen} is acceptable, not all at ${ends} is: the edge lies between`,
    test: `none before the map has more points around ${chosen}`,
  };
}

/** Set-point spread ε that keeps the steady share error: ε V/((R_d + R_line) I_r) (N − 1)/N, times what the loop leaves. */
function setPoints(scenario: Scenario, acceptance: Acceptance, leaves: number | null): Requirement[] {
  const shelf = scenario.shelves[0];
  const n = scenario.shelves.length;
  if (shelf === undefined || n < 2) return [];
  const { values } = shelf;
  const { share } = scenario.firmware;
  const rated_A = (values.module_count_count * values.module_power_W) / values.rated_voltage_V;
  const path_ohm =
    staticDroop_ohm(values.droop_ohm, values.integral_gain_A_per_Vs, values.proportional_gain_A_per_V) +
    share.path_resistance_ohm;
  const worst = (n - 1) / n;
  const reach_V = (error: number): number => (error * path_ohm * rated_A) / worst;
  const percent = (volts: number): string => `±${digits((100 * volts) / values.set_point_V, 2)} %`;
  const alone = reach_V(acceptance.steady_error_ratio);
  const lines: Requirement[] = [
    {
      path: 'shelves.set_point_offset',
      text: `within ${percent(alone)} if sharing is lost`,
      why: `droop alone then carries the share: ${100 * acceptance.steady_error_ratio} % of rated over ${digits(1e3 * path_ohm)} mΩ`,
      test: `each shelf at 50 % load, share bus unplugged, meter at its terminals: ${values.set_point_V} V less droop, ${percent(alone)}`,
    },
  ];
  if (leaves !== null) {
    const room = acceptance.steady_error_ratio - share.dead_band_ratio;
    const open = room > 0 && leaves > 0 ? reach_V(room) / leaves : 0;
    const reach = Math.min(open, share.trim_limit_V);
    lines.push({
      path: 'shelves.set_point_offset',
      text: `within ${percent(reach)} while sharing works`,
      why: `the loop leaves ${digits(100 * leaves, 2)} % of a difference, the dead band ${100 * share.dead_band_ratio} % of rated; the trim reaches ${share.trim_limit_V} V`,
      test: `cabinet at 60 % load, all sharing, currents of all shelves after 5 s: within ${100 * acceptance.steady_error_ratio} % of rated of their mean; no trim beyond 80 % of its clamp`,
    });
  }
  return lines;
}
