/** The judged run as every reader sees it: the terminal, `--json`, the bundle, the page. */

import type { EnergyRow, Status } from '../../engine/result.ts';
import type { Stability } from '../../linear/stability.ts';
import type { Monitoring } from '../../monitoring/monitoring.ts';
import type { Change, InputFile, Waiver } from '../../scenario/scenario.ts';
import type { BasisEntry } from '../basis.ts';
import type { Protection } from '../protection/protection.ts';
import type { Copper } from '../read/copper.ts';
import type { Responses } from '../responses/summary.ts';
import type { Statement } from '../statement/line.ts';
import type { LeftOut } from './left-out.ts';
import type { Outcome } from './outcome.ts';

/** Goes up when a field changes its meaning or goes. */
export const schemaVersion = 2;

export type FindingVerdict = 'pass' | 'fail' | 'inconclusive' | 'not_applicable' | 'waived';

export type Verdict = 'pass' | 'pass_with_conditions' | 'fail' | 'inconclusive';

/** A value of the record that lies where a limit is not judged. */
export interface Outside {
  readonly value: number;
  readonly time_s: number | null;
  readonly reason: string;
}

/** One limit judged: where, when, how far, how sure, what led there. */
export interface Finding {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly column: 'normal' | 'carry' | 'degraded';
  readonly verdict: FindingVerdict;
  /** What it came out as before it was waived; null where it was not. */
  readonly waived_from: 'fail' | 'inconclusive' | null;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Distance to the limit over the deviation the limit allows; positive inside; null for counts. */
  readonly headroom_ratio: number | null;
  readonly node: string | null;
  readonly time_s: number | null;
  readonly duration_s: number | null;
  readonly count: number | null;
  /** How far the value moves with the step and the nudge, over the deviation the limit allows; null unless measured. */
  readonly doubt_ratio: number | null;
  /** Its headroom is no larger than its doubt, or it comes out otherwise at another step: it may as well be the other. */
  readonly within_doubt: boolean;
  /** Smooth and sharp reading of a recorded load; null where there is one reading. */
  readonly bracket: readonly [number, number] | null;
  /** Part of the judged window that was looked at for it, 0 to 1; null where that has no meaning or nothing was. */
  readonly share_seen_ratio: number | null;
  /** The worst value where it was not judged, and why not there; null where all was judged or nothing is known. */
  readonly worst_outside: Outside | null;
  /** Why it could not be judged or did not apply, or what to know about a pass. */
  readonly reason: string | null;
  /** What saturated or switched before it, in time order, one plain sentence each. */
  readonly chain: readonly string[];
}

export interface Metrics {
  readonly bus_min_V: number | null;
  readonly bus_max_V: number | null;
  readonly shelf_current_max_A: number | null;
  readonly share_error_steady_ratio: number | null;
  readonly share_error_transient_ratio: number | null;
  readonly ac_power_mean_W: number | null;
  readonly ac_power_ripple_ratio: number | null;
  readonly ac_ramp_100ms_W_per_s: number | null;
  readonly ac_ramp_1s_W_per_s: number | null;
  readonly ac_line_current_rms_A: number | null;
  readonly tray_soc_min_ratio: number | null;
  readonly tray_soc_max_ratio: number | null;
  readonly tray_capacitor_current_rms_A: number | null;
  readonly battery_starts_count: number;
  readonly link_bar_current_max_A: number | null;
}

export interface Band {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly ripple_ratio: number | null;
}

/** One harmonic order of the line current: group, subgroup, and what lies between it and the next [A RMS]. */
export interface GroupRow {
  /** Order h; what lies between belongs to h and h + 1. Order 0 is below the fundamental. */
  readonly order: number;
  /** null for order 0. */
  readonly group_A: number | null;
  readonly subgroup_A: number | null;
  readonly between_A: number;
  readonly centred_A: number;
}

export interface Groups {
  readonly windows_count: number;
  /** Cycles of a window: 10 at 50 Hz, 12 at 60 Hz. */
  readonly cycles_count: number;
  readonly bin_Hz: number;
  /** RMS of each bin over all windows, from 0 Hz. */
  readonly bins_A: readonly number[];
  readonly rows: readonly GroupRow[];
}

/** One feeder at its point of connection; mean power and current are one cabinet's, the rest all cabinets'. */
export interface GridFeeder {
  readonly feeder: string;
  readonly line_Hz: number;
  readonly short_circuit_power_VA: number;
  readonly power_mean_W: number | null;
  /** RMS per phase. */
  readonly current_mean_A: number | null;
  /** Relative fall of the voltage under the mean power. */
  readonly fall_mean_ratio: number | null;
  /** Largest difference of half-cycle values, of adjacent means over 1 s, and the one kept for 0.5 s; when. */
  readonly change_max_ratio: number | null;
  readonly change_max_s: number | null;
  readonly change_steady_ratio: number | null;
  readonly change_steady_s: number | null;
  readonly change_kept_ratio: number | null;
  readonly change_kept_s: number | null;
  /** Short-term flicker: worst of whole ten minutes, or an estimate from a repeated cycle. */
  readonly pst: number | null;
  readonly pst_of: 'measured' | 'repeated cycle' | null;
  /** Length of what it was worked out from [s]. */
  readonly pst_over_s: number | null;
  readonly plt: number | null;
  readonly groups: Groups | null;
}

/** The AC side in the grid's own words. */
export interface Grid {
  readonly cabinets_count: number;
  readonly coincidence: 'together' | 'independent';
  readonly feeders: readonly GridFeeder[];
}

export interface EngineNote {
  readonly step_s: number;
  readonly steps: number;
  readonly states: number;
  readonly nodes: number;
  readonly mode_retries: number;
  readonly wall_s: number | null;
  readonly realtime_ratio: number | null;
}

export interface Report {
  readonly schema_version: number;
  readonly tool_version: string;
  /** What nobody may take from it. */
  readonly cautions: readonly string[];
  readonly seed: number;
  readonly scenario: { readonly id: string; readonly title: string; readonly about: string };
  readonly window_s: { readonly from: number; readonly to: number };
  /** Where in it some limits are not judged. */
  readonly left_out: readonly LeftOut[];
  readonly status: Status;
  readonly failure: string | null;
  readonly verdict: Verdict;
  /** What became of the cabinet, whatever the limits say. */
  readonly outcome: Outcome;
  /** What took the cabinet down, one phrase; null where it did not collapse. No waiver touches it. */
  readonly collapse: string | null;
  /** Feeders whose supply collapsed and when the first did, one phrase; null where none did. */
  readonly supply_collapse: string | null;
  /** One sentence: the verdict and the limit that binds. */
  readonly summary: string;
  readonly findings: readonly Finding[];
  /** As the reviewer wrote them, also those that were not needed. */
  readonly waivers: readonly Waiver[];
  /** Day for which the verdict is given; null where the caller states none, and no waiver has then run out. */
  readonly judged_on: string | null;
  /** What the verdict rests on beside the run, in the reviewer's words. */
  readonly conditions: readonly string[];
  /** Everything the verdict rests on, those conditions and the waivers included. */
  readonly basis: readonly BasisEntry[];
  readonly metrics: Metrics;
  readonly bands: readonly Band[];
  readonly grid: Grid;
  /** The linear model at the points where the run rests. */
  readonly stability: Stability;
  /** How units and bus answered edges and events; missing from runs kept before this was read. */
  readonly responses?: Responses;
  /** What each bar carries and how warm it gets; missing from runs kept before this was read. */
  readonly copper?: Copper;
  /** Sums are null where a failed run left no finite number. */
  readonly energy: {
    readonly input_J: number | null;
    readonly load_J: number | null;
    readonly loss_J: number | null;
    readonly stored_J: number | null;
    readonly residual_ratio: number | null;
    readonly residual_loss_ratio: number | null;
    /** Rows without a finite energy are left out: they exist only where the run failed. */
    readonly rows: readonly EnergyRow[];
  };
  readonly engine: EngineNote;
  readonly inputs: readonly (InputFile | { readonly change: Change })[];
  /** What the run shows of a specification, where its limits are those of one. */
  readonly statement?: Statement;
  /** A bench or field measurement laid over the run, where one was given. */
  readonly measured?: MeasuredReport;
  /** What polls of the management network would have seen, where the scenario declares ports. */
  readonly monitoring?: Monitoring;
  /** Guarded currents against time–current curves, where the scenario gives some. */
  readonly protection?: Protection;
  /** What a recorded load is and what was done to it; null for synthetic loads. */
  readonly load: {
    readonly bandwidth_Hz: number | null;
    readonly statement: readonly string[];
  };
}

/** RMS of a measurement's distance from the model within a band; null where it cannot be told. */
export interface ErrorBand {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly rms: number | null;
}

/** One measured channel against the model: errors are measured less simulated, in the channel's unit. */
export interface MeasuredChannel {
  readonly channel: string;
  /** Name of the column in the file. */
  readonly column: string;
  readonly unit: string;
  readonly samples: number;
  readonly rate_Hz: number;
  /** Mean of measured less simulated, and gain of the measured swing over the simulated; with 95 % intervals. */
  readonly bias: number;
  readonly bias_interval: readonly [number, number];
  /** null where the model does not swing. */
  readonly gain_ratio: number | null;
  readonly gain_interval: readonly [number, number] | null;
  readonly rms: number;
  readonly peak: number;
  readonly peak_s: number;
  /** Highest less lowest measured value, to compare the errors with. */
  readonly swing: number;
  /** Kind of its sensor where that is declared, and how large a bias its class allows, or that of a usual instrument. */
  readonly sensor: string | null;
  readonly allowed_bias: number;
  readonly correlation_ratio: number | null;
  readonly bands: readonly ErrorBand[];
  /** For drawing: at times of the run, the lowest and highest measured value about each, and the simulated one. */
  readonly trace: {
    readonly time_s: readonly number[];
    readonly low: readonly number[];
    readonly high: readonly number[];
    readonly simulated: readonly number[];
  };
}

/** A measurement laid over a run. */
export interface MeasuredReport {
  readonly file: string;
  readonly sha256: string;
  /** Time of the run at which the file's first stamp lies, and how that is known. */
  readonly at_s: number;
  readonly aligned: 'given' | 'found' | 'assumed';
  /** Channel that shows the place best, and how well the two agree there; null where no place was found. */
  readonly by: string | null;
  readonly correlation_ratio: number | null;
  /** Probability of the place against the others that come near, by what is left at each. */
  readonly confidence_ratio: number | null;
  /** Standard error of the place, from the residuals [s], and its 95 % interval. */
  readonly at_error_s: number | null;
  readonly at_interval_s: readonly [number, number] | null;
  /** Places that agree as well [s]: by the period of the load, or with less of the measurement inside the run. */
  readonly as_well_at_s: readonly number[];
  /** Seconds of the run in a second of the measurement, less 1, and its standard error; null: none to be told. */
  readonly clock_rate_ratio: number | null;
  readonly clock_rate_error_ratio: number | null;
  /** What must be known before the comparison is trusted, each with what to give. */
  readonly warnings: readonly string[];
  readonly channels: readonly MeasuredChannel[];
  readonly remarks: readonly string[];
}
