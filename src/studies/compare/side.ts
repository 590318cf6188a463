/** One of two compared runs as their page carries it: its report, its log, and a picture of what is compared. */
import type { Report } from '../../analysis/judge/report.ts';
import type { Bundle } from '../../bundle/format.ts';
import { looseJson, parseLoose } from '../../bundle/json.ts';
import type { Channel } from '../../channels/channel.ts';
import type { Recording, Result } from '../../engine/result.ts';
import { type PictureHead, packPicture, unpackPicture } from '../../picture/packed.ts';
import { bucketsOf } from '../../picture/picture.ts';

/** As `result` and `report` of a bundle, so that what shows a bundle shows a side. */
export interface Side {
  readonly report: Report;
  readonly result: Pick<Result, 'log' | 'failure'>;
  readonly recording: Recording;
}

/** What of a side is text. */
interface WrittenSide extends Omit<Side, 'recording'> {
  readonly channels: readonly Channel[];
  readonly picture: PictureHead;
}

export interface PackedSide {
  readonly text: string;
  readonly bytes: Uint8Array;
}

const shownTotals: ReadonlySet<string> = new Set(['total.ac_power_W', 'total.load_W']);

function isShown({ id, kind }: Channel): boolean {
  return kind === 'node-voltage' || kind === 'tray-charge' || shownTotals.has(id);
}

export function packSide({ report, result, scenario }: Bundle): PackedSide {
  const recording = shownOf(result.recording);
  const { head, bytes } = packPicture(bucketsOf(recording), scenario.tick_s);
  const written: WrittenSide = {
    report,
    result: { log: result.log, failure: result.failure },
    channels: recording.channels,
    picture: head,
  };
  return { text: looseJson(written), bytes };
}

/** The sum of both has been checked: what is in them is what `packSide` wrote. */
export function unpackSide({ text, bytes }: PackedSide): Side {
  const { report, result, channels, picture } = parseLoose(text) as WrittenSide;
  return { report, result, recording: unpackPicture({ head: picture, bytes }, channels).recording };
}

/** The channels that are compared, without close-ups. */
function shownOf({ channels, min, max, mean, ...rest }: Recording): Recording {
  const places = channels.flatMap((channel, c) => (isShown(channel) ? [c] : []));
  return {
    ...rest,
    channels: places.map((c) => channels[c]!),
    min: places.map((c) => min[c]!),
    max: places.map((c) => max[c]!),
    mean: places.map((c) => mean[c]!),
    closeUps: [],
  };
}
