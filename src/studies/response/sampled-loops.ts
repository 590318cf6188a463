/** Loops of the firmware, opened at the commands of a task: the trims of all shelves, the commands of the trays. */
import { type Pattern, type SampledLoops, sampledLoops } from '../../linear/sampled-loop.ts';
import type { LoopKind } from './loop.ts';
import type { Places } from './places.ts';

export interface FirmwareLoop extends SampledLoops {
  readonly name: string;
  readonly kind: LoopKind;
  readonly about: string;
  readonly places: number;
}

/** A task that commands nothing at this point has no loop. */
export function firmwareLoops({ system, trims, trays, unevenSetPoint, shelf }: Places): FirmwareLoop[] {
  const opened = (
    task: string,
    patterns: readonly Pattern[],
    words: Pick<FirmwareLoop, 'name' | 'kind' | 'about'>,
  ): FirmwareLoop[] => {
    const found = system.tasks.find((one) => one.name === task);
    if (found === undefined || patterns.flat().some(({ command }) => command < 0)) return [];
    return [{ ...words, places: patterns.length, ...sampledLoops(system, found, patterns) }];
  };
  const uneven = trims.map((command, k) => ({ command, weight: unevenSetPoint.weights[k]!.weight }));
  const alike = trays.map((command) => ({ command, weight: 1 }));
  const included = 'sampling and latency included';
  return [
    ...(trims.length < 2
      ? []
      : [
          ...opened(
            'share',
            trims.map((command) => [{ command, weight: 1 }]),
            {
              name: 'share loops',
              kind: 'coupled',
              about: `opened at the trims of all ${trims.length} shelves at once, ${included}`,
            },
          ),
          ...opened('share', [uneven], {
            name: `share loop of ${shelf}`,
            kind: 'one direction',
            about: `opened at the trims, ${shelf} against the others, ${included}`,
          }),
        ]),
    ...(trays.length === 0
      ? []
      : opened('smoothing', [alike], {
          name: 'smoothing loop',
          kind: 'one direction',
          about: `opened at the tray commands, all trays together, ${included}`,
        })),
  ];
}
