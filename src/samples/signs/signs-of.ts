/** All signs of some channels of one quantity, by channel and in the order of time. */
import { anotherScale } from './another-scale.ts';
import { apart } from './apart.ts';
import { ceiling } from './ceiling.ts';
import { clipped } from './clipped.ts';
import { doubled } from './doubled.ts';
import { equalRuns } from './equal-runs.ts';
import { frozen } from './frozen.ts';
import { interleaved } from './interleaved.ts';
import { loneValue } from './lone-value.ts';
import { neverChanges } from './never-changes.ts';
import { repeatedStretches } from './repeated-stretch.ts';
import { runningCount } from './running-count.ts';
import { runningMeans } from './running-mean.ts';
import { scaleStep } from './scale-step.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';
import { smoothed } from './smoothed.ts';
import { spike } from './spike.ts';
import { straight } from './straight.ts';
import { mostChannels, together } from './together.ts';
import { twins } from './twin.ts';
import { twoScales } from './two-scales.ts';
import { zeros } from './zeros.ts';

export interface Signs {
  readonly signs: readonly Sign[];
  /** What is no sign, but worth a sentence. */
  readonly remarks: readonly string[];
}

export function signsOf(channels: readonly Sampled[]): Signs {
  const enough = channels.filter(({ values }) => values.length >= fewestSamples);
  const single = enough.map(ofChannel);
  const tooMany = enough.length > mostChannels;
  return {
    signs: [...(enough.length < 2 ? [] : betweenChannels(enough)), ...single.flatMap(({ signs }) => signs)],
    remarks: [
      ...(tooMany
        ? [`Of more than ${mostChannels} channels it is not told which repeat or sum others.`]
        : []),
      ...single.flatMap(({ remarks }) => remarks),
    ],
  };
}

function betweenChannels(channels: readonly Sampled[]): Sign[] {
  const all = together(channels);
  return [
    ...anotherScale(channels),
    ...(all === null
      ? []
      : [...twins(channels, all), ...runningMeans(channels, all), ...apart(channels, all)]),
    ...neverChanges(channels),
  ];
}

function ofChannel(channel: Sampled): Signs {
  const runs = equalRuns(channel.values);
  const { signs, remarks } = repeatedStretches(channel);
  const flat = clipped(channel);
  const groups = twoScales(channel);
  const scales = groups.length > 0 ? groups : scaleStep(channel);
  const spikes = spike(channel, runs);
  const own = [
    ...scales,
    ...(spikes.length > 0 ? spikes : loneValue(channel, runs)),
    ...runningCount(channel),
    ...frozen(channel, runs),
    ...straight(channel, runs),
    ...zeros(channel, runs),
    ...(flat.length > 0 ? flat : ceiling(channel, runs)),
    ...doubled(channel, runs),
    // Of two scales the smaller would be all that is quiet.
    ...(scales.length > 0 ? [] : [...smoothed(channel, runs), ...interleaved(channel, runs)]),
    ...signs,
  ];
  return { signs: own.toSorted((a, b) => a.from_s - b.from_s), remarks };
}
