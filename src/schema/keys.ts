/** Every key that a file or a change may hold, with what it may be: the reference of keys, and what `explain` looks in. */
import { placeVerbs } from '../scenario/changes/places.ts';
import { eventFields, eventKinds, furtherFields, occurrences } from '../scenario/occurrences.ts';
import { guardParameters } from '../scenario/parameters/guard.ts';
import { portParameters } from '../scenario/parameters/port.ts';
import { stateField, stateKindNames, stateKinds } from '../scenario/part-states.ts';
import { loadKinds, readingFields } from '../scenario/sections/load-fields.ts';
import { runWords } from '../scenario/sections/run-fields.ts';
import {
  barParts,
  cabinetTable,
  choiceOf,
  closed,
  families,
  firmwareTasks,
  firmwareWords,
  fitted,
  linkPlace,
  linkRack,
  numbersOf,
  type ParameterTable,
  placedFamilies,
  runTable,
  weight,
} from '../scenario/tables.ts';
import { type FieldSpec, type FieldValue, quantity } from '../scenario/text/field.ts';
import { modelHeads } from '../scenario/text/model.ts';
import { noteMeanings } from '../scenario/text/sourced.ts';
import { studySectionMeanings, studyWordMeanings } from '../studies/written/word-meanings.ts';

export interface Key {
  /** Where it stands: `trays.capacitance` of every tray, `firmware.share.period`, `load.step.edge`, `events.ac-sag.to`. */
  readonly path: string;
  readonly field: FieldSpec;
  /** What holds where nothing is written; null: nothing does; undefined: it must be written. */
  readonly fallback: FieldValue | undefined;
}

function ofTable(prefix: string, table: ParameterTable): Key[] {
  return Object.entries(table).map(([key, spec]) => ({
    path: `${prefix}${key}`,
    field: quantity(spec),
    fallback: spec.optional === true ? null : spec.fallback,
  }));
}

/** By heading: the files in which the keys stand. */
export const keys: Readonly<Record<string, readonly Key[]>> = {
  'The run': [
    ...ofTable('', runTable),
    ...Object.entries(runWords).map(([path, { field, fallback }]) => ({ path, field, fallback })),
  ],
  'The cabinet': [
    ...ofTable('', cabinetTable),
    ...placedFamilies.map((family) => ({ path: `${family}.fitted`, field: fitted, fallback: true })),
    {
      path: 'limits',
      field: { kind: 'text', means: 'file of the limits, YAML, or of a specification, CSV' },
      fallback: undefined,
    },
    ...families.map((family) => ({
      path: `${family}.model`,
      field: {
        kind: 'text',
        means:
          'the model of a unit, with the name of that unit: trays.T6.model; what stands over a model stays',
      } as const,
      fallback: undefined,
    })),
    { path: 'shelves.feeder', field: { kind: 'text', means: 'feeder of the shelf' }, fallback: undefined },
    { path: 'sleds.weight', field: quantity(weight), fallback: undefined },
    { path: 'bars.links.place', field: linkPlace, fallback: undefined },
    { path: 'bars.links.rack', field: linkRack, fallback: undefined },
    { path: 'bars.links.closed', field: closed, fallback: true },
    { path: 'bars.tie.closed', field: closed, fallback: true },
  ],
  'Places, in changes alone': placedFamilies.flatMap((family) =>
    Object.entries(placeVerbs).map(([verb, means]) => ({
      path: `${family}.${verb}`,
      field: { kind: 'text', means } as const,
      fallback: null,
    })),
  ),
  'States of parts, in scenarios and changes': stateKindNames.map((kind) => ({
    path: `${kind}.trays`,
    field: stateField(kind),
    fallback: Object.keys(stateKinds[kind].states)[0]!,
  })),
  'Every model file': Object.entries(modelHeads).map(([path, means]) => ({
    path,
    field: { kind: 'text', means } as const,
    fallback: path === 'model' ? undefined : null,
  })),
  'Every number of a model': Object.entries(noteMeanings).map(([path, means]) => ({
    path,
    field: { kind: 'text', means } as const,
    fallback: path === 'value' || path === 'source' ? undefined : null,
  })),
  ...Object.fromEntries(
    families.map((family) => [`Models of ${family}`, ofTable(`${family}.`, numbersOf(family))]),
  ),
  'Models of bars': Object.entries(barParts).flatMap(([part, table]) =>
    ofTable(`bars.${part === 'link' ? 'links' : part}.`, table),
  ),
  'Models of firmware': Object.entries(firmwareTasks).flatMap(([task, table]) => [
    ...ofTable(`firmware.${task}.`, table),
    ...Object.entries(firmwareWords[task as keyof typeof firmwareTasks] ?? {}).map(([key, spec]) => ({
      path: `firmware.${task}.${key}`,
      field: choiceOf(spec),
      fallback: spec.fallback,
    })),
  ]),
  Loads: [
    ...Object.entries(loadKinds).flatMap(([kind, fields]) =>
      Object.entries(fields).map(([key, { field, fallback }]) => ({
        path: `load.${kind}.${key}`,
        field,
        fallback,
      })),
    ),
    ...Object.entries(readingFields).map(([key, { field, fallback }]) => ({
      path: `load.reading.${key}`,
      field,
      fallback,
    })),
  ],
  'Monitoring, in scenarios': [
    {
      path: 'monitoring.polls',
      field: { kind: 'text', means: 'devices that the port asks, in this order' },
      fallback: undefined,
    },
    ...ofTable('monitoring.', portParameters),
  ],
  'Protection, in scenarios': [
    {
      path: 'protection.guards',
      field: {
        kind: 'text',
        means: 'units, each behind such a device: feeders, shelves, banks, batteries, sleds',
      },
      fallback: undefined,
    },
    {
      path: 'protection.curve',
      field: {
        kind: 'text',
        means:
          'points of the time–current curve, current over rating and time, as 1.5: 600 s, or a CSV file with the columns current_ratio and time_s',
      },
      fallback: undefined,
    },
    ...ofTable('protection.', guardParameters),
  ],
  Studies: Object.entries({ ...studySectionMeanings, ...studyWordMeanings }).map(([key, means]) => ({
    path: `study.${key}`,
    field: { kind: 'text', means } as const,
    fallback: ['study', 'title', 'scenario'].includes(key) ? undefined : null,
  })),
  Events: eventKinds.flatMap((kind) =>
    [...furtherFields(kind)]
      .filter(([key]) => !(key in eventFields))
      .map(([key, field]) => ({
        path: `events.${kind}.${key}`,
        field,
        fallback: key === occurrences[kind].amount?.word ? occurrences[kind].amount?.spec.fallback : null,
      })),
  ),
};
