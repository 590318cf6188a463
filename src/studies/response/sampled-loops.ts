/** Loops of the firmware, opened at the commands of a task: the trims of all shelves, the commands of the trays, currents. */
import { formatQuantity } from '../../base/quantity.ts';
import { innerTasks, type LinearTask } from '../../linear/sampled.ts';
import { type Pattern, type SampledLoops, sampledLoops, unfitting } from '../../linear/sampled-loop.ts';
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
    if (unfitting(system, found) !== null) return [];
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

/** Which of these loops are not told, and why. */
export function untoldLoops({ system, trims, trays }: Places): string[] {
  const loops = [
    { task: 'share', what: 'share loops', also: ', nor how they may hunt', isThere: trims.length > 1 },
    { task: 'smoothing', what: 'smoothing loop', also: '', isThere: trays.length > 0 },
  ];
  const every = ({ period }: LinearTask): string =>
    formatQuantity(Number((period * system.tick_s).toPrecision(9)), 'time');
  return loops.flatMap(({ task, what, also, isThere }) => {
    const own = system.tasks.find(({ name }) => name === task);
    const other = own === undefined || !isThere ? null : unfitting(system, own);
    if (own === undefined || other === null) return [];
    return [
      `No margin of the ${what} is told${also}: ${other.name} acts every ${every(other)}, which does not fit into ${every(own)}. The modes hold.`,
    ];
  });
}

/**
 * Voltage loops that are sampled, those of a task opened at the currents that it commands: a change of gain there is the same
 * change of K_p and K_i. Slower tasks stand still.
 */
export function sampledVoltageLoops({ system, currents }: Places): FirmwareLoop[] {
  const { n } = system.plant;
  return innerTasks(system).flatMap((task): FirmwareLoop[] => {
    const rows = [...task.run.rows];
    const own = currents.filter((command) => rows.includes(n + command));
    if (own.length === 0) return [];
    const shelves = own.map((command) => system.labels[n + command]!.replace(' current command', ''));
    const isAll = own.length === currents.length;
    const [first] = shelves;
    const of = isAll ? '' : ` of ${first} and ${own.length - 1} more`;
    const included = 'sampling, latency and hold included, other commands held';
    const opened = (
      patterns: readonly Pattern[],
      words: Pick<FirmwareLoop, 'name' | 'kind' | 'about'>,
    ): FirmwareLoop => ({ ...words, places: patterns.length, ...sampledLoops(system, task, patterns) });
    const each = own.map((command) => [{ command, weight: 1 }]);
    if (own.length === 1)
      return [
        opened(each, {
          name: `voltage loop of ${first}`,
          kind: 'single',
          about: `opened at its current command: K_p and K_i alike; ${included}`,
        }),
      ];
    return [
      opened(each, {
        name: `voltage loops${of}`,
        kind: 'coupled',
        about: `opened at the current commands of ${own.length} shelves at once: K_p and K_i of all alike; ${included}`,
      }),
      opened([each.flat()], {
        name: `voltage loops${of} together`,
        kind: 'one direction',
        about: 'the same opened and driven alike: one direction of many, and no margin of the others',
      }),
    ];
  });
}
