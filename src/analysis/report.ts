/** The judged run as every reader sees it: the terminal, `--json`, the bundle, the page. */
import type { EnergyRow, Status } from '../engine/result.ts';
import type { Change, InputFile } from '../scenario/scenario.ts';

export type FindingVerdict = 'pass' | 'fail' | 'not_assessable' | 'not_applicable' | 'waived';

export type Verdict = 'pass' | 'pass_with_conditions' | 'fail' | 'not_assessable';

/** One limit judged: where, when, how far, how sure, what led there. */
export interface Finding {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly column: 'normal' | 'carry' | 'degraded';
  readonly verdict: FindingVerdict;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Distance to the limit over the deviation the limit allows; positive inside; null for counts. */
  readonly headroom_ratio: number | null;
  readonly node: string | null;
  readonly time_s: number | null;
  readonly duration_s: number | null;
  readonly count: number | null;
  /** How far the value moves when the step is halved, over the deviation the limit allows; null unless measured. */
  readonly doubt_ratio: number | null;
  /** Smooth and sharp reading of a recorded load; null where there is one reading. */
  readonly bracket: readonly [number, number] | null;
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
  readonly seed: number;
  readonly scenario: { readonly id: string; readonly title: string; readonly about: string };
  readonly window_s: { readonly from: number; readonly to: number };
  readonly status: Status;
  readonly failure: string | null;
  readonly verdict: Verdict;
  /** One sentence: the verdict and the limit that binds. */
  readonly summary: string;
  readonly findings: readonly Finding[];
  readonly metrics: Metrics;
  readonly bands: readonly Band[];
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
  /** What a recorded load is and what was done to it; null for synthetic loads. */
  readonly load: {
    readonly bandwidth_Hz: number | null;
    readonly statement: readonly string[];
  };
}
