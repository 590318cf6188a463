/**
 * The frozen scenario: everything a run needs, validated, in SI, with where each value came from.
 * Stage one of the way; everything downstream reads this and nothing else of the user's files.
 */

import type { Problem } from '../base/problem.ts';
import type { Alteration } from './changes/alterations.ts';
import type { LimitRow } from './limit-row.ts';
import type { OccurrenceKind } from './occurrences.ts';
import type { BankValues } from './parameters/bank.ts';
import type { BarValues } from './parameters/bar.ts';
import type { BatteryValues } from './parameters/battery.ts';
import type { BrakeValues } from './parameters/brake.ts';
import type { FeederValues } from './parameters/feeder.ts';
import type { GuardValues } from './parameters/guard.ts';
import type { HandoverValues } from './parameters/handover.ts';
import type { NodeValues } from './parameters/node.ts';
import type { PortValues } from './parameters/port.ts';
import type { ShareValues } from './parameters/share.ts';
import type { ShelfValues } from './parameters/shelf.ts';
import type { SledValues } from './parameters/sled.ts';
import type { SmoothingValues } from './parameters/smoothing.ts';
import type { SupervisorValues } from './parameters/supervisor.ts';
import type { TrayValues } from './parameters/tray.ts';
import type { LimitDifference } from './sections/limit-differences.ts';
import type { Specification } from './specification/requirement.ts';
import type { SyntheticLoad } from './synthetic-loads.ts';
import type { Origin } from './text/origin.ts';

/** A unit of the cabinet: its name (S3, T4 …) and its parameters. */
export interface Unit<V> {
  readonly id: string;
  readonly values: V;
}

export interface Shelf extends Unit<ShelfValues> {
  readonly feeder: string;
}

/** A sled: hangs on the rack bar; `share_ratio` of the whole load, shares of all sleds sum to 1. */
export interface Sled extends Unit<SledValues> {
  readonly share_ratio: number;
}

/** One section of the cabinet bar: the units in their places, from the link end. One place, one bar node. */
export interface Section {
  readonly id: string;
  readonly order: readonly string[];
}

/** A link bar: from place `place` (1 is next to the link end) of a section to rack node `rack` (1-based). */
export interface Link extends BarValues {
  readonly id: string;
  readonly section: string;
  readonly place: number;
  readonly rack: number;
  readonly closed: boolean;
}

/** Bar resistance and inductance per piece, and the shunt that rack nodes carry. */
export interface Bars {
  readonly segment: BarValues;
  readonly rackSegment: BarValues;
  readonly contact: BarValues;
  readonly rackNode: NodeValues;
  /** Joins the far ends of the two sections; null where the cabinet has none. */
  readonly tie: (BarValues & { readonly id: string; readonly closed: boolean }) | null;
  readonly links: readonly Link[];
}

export interface Firmware {
  readonly share: ShareValues;
  readonly smoothing: SmoothingValues;
  readonly handover: HandoverValues;
  readonly supervisor: SupervisorValues;
  readonly brake: BrakeValues;
}

/** A number that a controller lets be seen: `error_V` is an error in V. */
export interface ShownNumberSpec {
  readonly name: string;
  readonly quantity: string;
  readonly unit: 'V' | 'A' | 'W' | 'ratio';
}

/** A module of the user's own that runs in place of a firmware task; its contract: src/firmware/user/contract.ts. */
export interface ControllerSpec {
  readonly replaces: 'share' | 'smoothing' | 'voltage-loop' | 'hand-over';
  readonly file: string;
  readonly sha256: string;
  /** Channels of its own, in the order of the column that it fills. */
  readonly shows: readonly ShownNumberSpec[];
  /** As JavaScript, and the map from there to the text of the file. */
  readonly code: string;
  readonly map: string;
}

/** A port of the management network: the devices that it asks, in this order, and how. */
export interface PortSpec extends Unit<PortValues> {
  readonly polls: readonly string[];
}

/** Points of a time–current curve: rising currents over the rating, falling times. */
export interface TripCurve {
  readonly ratios: readonly number[];
  readonly times_s: readonly number[];
}

/** Protection of one make: each of `guards` stands behind one. */
export interface GuardSpec extends Unit<GuardValues> {
  readonly guards: readonly string[];
  readonly curve: TripCurve;
}

export type LoadSpec =
  | SyntheticLoad
  | { readonly kind: 'constant'; readonly power_W: number }
  | {
      readonly kind: 'step';
      readonly before_W: number;
      readonly after_W: number;
      readonly at_s: number;
      readonly edge_s: number;
    }
  | {
      readonly kind: 'pulse-train';
      readonly low_W: number;
      readonly high_W: number;
      readonly period_s: number;
      readonly duty_ratio: number;
      /** Duration of each edge; the pulse is at half height at the ends of its high part. */
      readonly edge_s: number;
      /** Largest shift of one sled's pulses against the first sled, spread evenly over the sleds. */
      readonly spread_s: number;
      /** Largest random shift of a sled's pulses, drawn evenly for each sled (seeded). */
      readonly scatter_s: number;
      /** Standard deviation of each period's length (seeded); 0 keeps the train periodic. */
      readonly jitter_s: number;
    }
  | {
      readonly kind: 'recorded';
      readonly file: string;
      /** Stretch of the recording that is played, seconds from its first stamp. */
      readonly from_s: number;
      readonly to_s: number;
      /** Highest total power the played stretch is scaled to, all copies in step; or `scale_ratio` given instead. */
      readonly peak_W: number | null;
      readonly scale_ratio: number | null;
      /**
       * `smooth`: straight lines between samples. `sharp`: steps that keep each sample's energy, edges of `edge_s`.
       * `both`: two runs, and findings with a bracket.
       */
      readonly edges: 'smooth' | 'sharp' | 'both';
      readonly edge_s: number;
      /** The stretch is played again and again; its seam is checked. */
      readonly loop: boolean;
      readonly reading: RecordedReading;
    };

/** How a recorded file is to be read, where the file itself does not settle it. */
export interface RecordedReading {
  readonly time: string | null;
  readonly power: readonly string[];
  /** Columns of current, each times the voltage: a column, or one value such as `50 V`. */
  readonly current: readonly string[];
  readonly voltage: string | null;
  readonly channel: string | null;
  readonly unit: string | null;
  /** Rows that count: those whose cells say so, each as `COLUMN=VALUE`. */
  readonly where: readonly string[];
  /** Order of day and month, where dates such as 01/02/2030 leave it open. */
  readonly dates: 'day-first' | 'month-first' | null;
  /** What a comma in a number is, where the file leaves it open; `point` makes commas marks for thousands. */
  readonly decimal: 'comma' | 'point' | null;
  /** Time over which the sensor averaged, where it is known to be longer than the sampling interval. */
  readonly averaging_s: number | null;
  /** What a sample is: the mean over its interval, or the value at its stamp; null: nobody says, and means are assumed. */
  readonly samples: 'means' | 'instants' | null;
  /** Values, as they stand in the file, that mean that nothing was read. */
  readonly sentinel: readonly number[];
  /** Repeated values are the load's own, not a sensor that renews slower than it is read. */
  readonly fresh: boolean;
  /** Stamps that jump back are one recording out of order, not a clock that was set back. */
  readonly sort: boolean;
  /** Channels are shifted in time to where they agree best. */
  readonly align: boolean;
  /** What is stated here holds where the file says otherwise: units in names, decimal marks, columns that sum others. */
  readonly overrule: boolean;
  readonly at: 'device' | 'sled' | 'rack';
  readonly side: 'dc' | 'ac';
  readonly copies: number | null;
  readonly coincidence: 'together' | 'spread' | 'worst';
  readonly smoothed: boolean;
  /** An AC recording may stand for the DC load: its power supply's losses and filtering are then in it. */
  readonly accept_ac: boolean;
}

/** What happens when. `unit` names a unit, bar, feeder or signal, or `all` of them where that fits. */
export interface EventSpec {
  readonly at_s: number;
  readonly what: OccurrenceKind;
  readonly unit: string;
  /** How much, in the SI unit of its kind (`occurrences.ts`); null where the kind knows no amount. */
  readonly amount: number | null;
  /** It is over after this; null: it stays. */
  readonly for_s: number | null;
  /** It comes as a ramp this long; null: at once. */
  readonly over_s: number | null;
}

/** A limit that a reviewer waives: it stays in the record, with who and why. */
export interface Waiver {
  /** Id of the row. */
  readonly limit: string;
  readonly reason: string;
  /** Role or initials; null where nobody signed. */
  readonly by: string | null;
  /** Last day it holds, for example 2030-06-30; null: no end stated. */
  readonly until: string | null;
}

export interface Change {
  readonly path: string;
  /** As written by the user, for example `0.5 mΩ`. */
  readonly value: string;
}

export interface InputFile {
  readonly path: string;
  readonly sha256: string;
}

export interface Scenario {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly expectation: string;
  readonly seed: number;
  readonly duration_s: number;
  /** `settled`: on the load's mean. `converged-cycle`: in the periodic steady state of a periodic load. */
  readonly start: 'settled' | 'converged-cycle';
  /** Left out of metrics and findings. */
  readonly warm_up_s: number;
  /** The tick, the smallest unit of time: 0.25 µs by default. All times of a run are whole ticks. */
  readonly tick_s: number;
  /** The default step of the ladder. */
  readonly step_s: number;
  /** The scenario states an outage: the degraded column of the limits applies. */
  readonly outage: boolean;
  readonly nominal_V: number;
  readonly rated_W: number;
  /** Cabinets like this one at the same point of connection, this one among them. */
  readonly cabinets_on_feeder_count: number;
  /** How their loads fall together: swings add, or squares of swings do. */
  readonly coincidence: 'together' | 'independent';
  readonly feeders: readonly Unit<FeederValues>[];
  readonly sections: readonly Section[];
  readonly bars: Bars;
  readonly shelves: readonly Shelf[];
  readonly trays: readonly Unit<TrayValues>[];
  readonly banks: readonly Unit<BankValues>[];
  readonly batteries: readonly Unit<BatteryValues>[];
  readonly sleds: readonly Sled[];
  readonly firmware: Firmware;
  readonly controllers: readonly ControllerSpec[];
  readonly load: LoadSpec;
  readonly events: readonly EventSpec[];
  /** Ports that poll devices; missing where none is declared. */
  readonly monitoring?: readonly PortSpec[];
  /** Protection whose curves are held against recorded currents; missing where none is given. */
  readonly protection?: readonly GuardSpec[];
  readonly limits: readonly LimitRow[];
  /** Where the limits come from, and where they are not what the project ships (or, uncompared, their file states). */
  readonly limits_basis: {
    readonly file: string;
    /** They were compared with the shipped ones. */
    readonly compared: boolean;
    readonly differences: readonly LimitDifference[];
  };
  /** Where the limits are those of a specification that another party wrote. */
  readonly specification?: Specification;
  readonly waivers: readonly Waiver[];
  /** Day for which the verdict is given, for example 2030-06-30; without it no waiver has run out. */
  readonly judged_on?: string;
  /** The day on which it was asked for; `judged_on` may lie elsewhere. */
  readonly asked_on?: string;
  /** What the verdict rests on beside the run, in the reviewer's words. */
  readonly conditions: readonly string[];
  readonly changes: readonly Change[];
  /** What those changes did, in the same order. */
  readonly alterations: readonly Alteration[];
  /** What is legal in the files and changes but unusual. */
  readonly warnings: readonly Problem[];
  readonly inputs: readonly InputFile[];
  /** Path of a value (`shelves.S3.droop`) to where it was written. */
  readonly origins: ReadonlyMap<string, Origin>;
}
