/** What drives slow states through a stretch: RMS currents and mean powers that one fast run shows for all of it. */

export interface BarDrive {
  readonly id: string;
  readonly mean_A: number;
  readonly rms_A: number;
  /** What its resistance has gained on the way: of the one joint that aged [Ω]. */
  readonly aged_ohm: number;
}

export interface TrayDrive {
  readonly id: string;
  readonly rms_A: number;
  /** What a second takes of its cells' life at the temperature that the life is stated for, at its voltages; 0: not stated. */
  readonly worn_per_s: number;
}

export interface BankDrive {
  readonly id: string;
  readonly rms_A: number;
}

export interface BatteryDrive {
  readonly id: string;
  /** Into the bus [W]: positive while it carries, negative while it charges. */
  readonly power_W: number;
}

export interface Drive {
  readonly bars: readonly BarDrive[];
  readonly trays: readonly TrayDrive[];
  readonly banks: readonly BankDrive[];
  readonly batteries: readonly BatteryDrive[];
}

/** The drives of a stretch: with batteries that take no charge, and, where some may be short, with all taking what they are granted. */
export interface StretchDrives {
  readonly resting: Drive;
  readonly charging: Drive | null;
}

/** Power that all batteries together take from the bus [W]. */
export function chargingPower_W({ batteries }: Drive): number {
  return batteries.reduce((sum, { power_W }) => sum + Math.max(0, -power_W), 0);
}
