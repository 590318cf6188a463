/** Scenario files: what is run, on which cabinet, with which load, and what happens. */

import { guardParameters } from '../scenario/parameters/guard.ts';
import { portParameters } from '../scenario/parameters/port.ts';
import { stateKindNames, stateKinds } from '../scenario/part-states.ts';
import { scenarioKeys } from '../scenario/read.ts';
import { replaceable } from '../scenario/sections/controllers.ts';
import { portKeys } from '../scenario/sections/monitoring.ts';
import { guardKeys } from '../scenario/sections/protection.ts';
import { runWords } from '../scenario/sections/run-fields.ts';
import { runTable } from '../scenario/tables.ts';
import { quantity } from '../scenario/text/field.ts';
import { eventsSchema } from './events.ts';
import { branchOf, branchOfKeys, type JsonSchema, type KeySchema, namedOf } from './json-schema.ts';
import { loadSchema } from './load.ts';
import { fieldSchema, fileSchema, remarkSchema, textSchema } from './values.ts';

const waiver = branchOf({
  limit: { schema: textSchema('id of the limit that is waived'), required: true },
  reason: { schema: textSchema('why it may be waived'), required: true },
  by: { schema: textSchema('who waives it: a role or initials'), required: true },
  until: {
    schema: { description: 'the last day it holds', type: 'string', pattern: '^\\d{4}-\\d{2}-\\d{2}$' },
  },
});

const controller = branchOf({
  replaces: { schema: { description: 'the firmware task', enum: replaceable }, required: true },
  file: { schema: fileSchema('a JavaScript or TypeScript module'), required: true },
  shows: {
    schema: {
      description: 'numbers that it lets be seen as channels, by names that end in their unit',
      type: 'array',
      items: { type: 'string', pattern: '^[A-Za-z][\\w .-]{0,39}_(V|A|W|ratio)$' },
    },
  },
});

const port = branchOfKeys(portKeys, {
  polls: {
    schema: {
      description: 'the devices, in the order in which they are asked',
      type: 'array',
      items: textSchema('a device'),
    },
    required: true,
  },
  ...Object.fromEntries(
    Object.entries(portParameters).map(([key, spec]): [string, KeySchema] => [
      key,
      { schema: fieldSchema(quantity(spec)), required: !('fallback' in spec) },
    ]),
  ),
});

const guard = branchOfKeys(guardKeys, {
  guards: {
    schema: {
      description: 'the units, each behind such a device',
      type: 'array',
      items: textSchema('a unit'),
    },
    required: true,
  },
  curve: {
    schema: {
      description: 'current over rating, and the time after which that trips',
      anyOf: [
        fileSchema('CSV with the columns current_ratio and time_s'),
        { type: 'object', additionalProperties: textSchema('a time') },
      ],
    },
    required: true,
  },
  rating: { schema: fieldSchema(quantity(guardParameters.rating)), required: true },
});

export const scenarioSchema: JsonSchema = branchOfKeys(
  scenarioKeys,
  {
    title: { schema: remarkSchema('one line that says what is run'), required: true },
    about: { schema: remarkSchema('what else is to be known') },
    expectation: { schema: remarkSchema('what is expected to come out') },
    cabinet: { schema: fileSchema('cabinet file'), required: true },
    gains: { schema: fileSchema('gains file') },
    controllers: {
      schema: { description: "firmware tasks of the user's own", type: 'array', items: controller },
    },
    ...Object.fromEntries(
      Object.entries(runTable).map(([key, spec]): [string, KeySchema] => [
        key,
        { schema: fieldSchema(quantity(spec)), required: !('fallback' in spec) },
      ]),
    ),
    ...Object.fromEntries(
      Object.entries(runWords).map(([key, { field, fallback }]): [string, KeySchema] => [
        key,
        { schema: fieldSchema(field, fallback) },
      ]),
    ),
    waivers: { schema: { description: 'limits that are waived', type: 'array', items: waiver } },
    conditions: {
      schema: {
        description: 'what the verdict rests on beside the run',
        type: 'array',
        items: textSchema('a sentence'),
      },
    },
    ...Object.fromEntries(
      stateKindNames.map((kind): [string, KeySchema] => [
        kind,
        {
          schema: {
            description: stateKinds[kind].means,
            type: 'object',
            additionalProperties: { enum: Object.keys(stateKinds[kind].states) },
          },
        },
      ]),
    ),
    changes: {
      schema: {
        description: 'values by path, written over those of cabinet and models',
        type: 'object',
        additionalProperties: remarkSchema('the value, with its unit'),
      },
    },
    load: { schema: loadSchema, required: true },
    events: { schema: eventsSchema },
    monitoring: { schema: namedOf(port, 'ports of the management network, by name') },
    protection: { schema: namedOf(guard, 'protection devices with their time–current curves, by name') },
  },
  { title: 'Scenario' },
);
