/** Quanta of sampled voltage loops: their commands, and the converters of their voltages. */
import type { Cabinet } from '../../../engine/cabinet.ts';
import { stairs } from '../../../linear/cycles/describing.ts';
import { openedSampled } from '../../../linear/cycles/opened.ts';
import { innerTasks } from '../../../linear/sampled.ts';
import type { Scenario } from '../../../scenario/scenario.ts';
import type { Places } from '../places.ts';
import { directionsOf } from './directions.ts';
import type { Hunter } from './hunter.ts';

export function voltageHunters({ shelves }: Scenario, cabinet: Cabinet, places: Places): Hunter[] {
  const { system, currents } = places;
  const { n } = system.plant;
  const { stages } = cabinet.network;
  return innerTasks(system).flatMap((task): Hunter[] => {
    const commands = [...task.run.rows].filter((row) => currents.includes(row - n));
    const names = commands.map((row) => system.labels[row]!.replace(' current command', ''));
    if (names.length === 0) return [];
    const own = names.map((name) => stages.names.indexOf(name));
    const { values } = shelves[own[0]!]!;
    const quantum = values.loop_command_quantum_A;
    const bits = values.loop_voltage_bits_count;
    const step = bits > 0 ? values.loop_voltage_range_V / 2 ** bits : 0;
    const silent =
      values.loop_jitter_s > 0
        ? 'commands come at random moments (loop_jitter)'
        : [quantum, step, values.loop_current_bits_count].filter((size) => size > 0).length > 1
          ? 'several quanta act in one loop'
          : null;
    return directionsOf(names, true).flatMap((direction): Hunter[] => [
      ...(quantum === 0
        ? []
        : [
            {
              element: 'current command quantum',
              given: 'current command',
              unit: 'A' as const,
              size: quantum,
              direction,
              acts: stairs(quantum),
              loop: openedSampled(system, task, 'run', commands, direction.weights),
              rests: own.map((k) => stages.command_A[k]!),
              // The stage follows its command with its lag.
              shelfCurrent_A: (f: number, gain: number) =>
                gain / Math.hypot(1, 2 * Math.PI * f * values.current_lag_s),
              silent,
            },
          ]),
      ...(step === 0
        ? []
        : [
            {
              element: 'voltage sensor quantum',
              given: 'sensed voltage',
              unit: 'V' as const,
              size: step,
              direction,
              acts: stairs(step),
              loop: openedSampled(
                system,
                task,
                'sample',
                own.map((_, at) => task.samplesAt + at),
                direction.weights,
              ),
              rests: own.map((k) => cabinet.stepper.v0[stages.node[k]!]!),
              shelfCurrent_A: () => Number.NaN,
              silent,
            },
          ]),
    ]);
  });
}
