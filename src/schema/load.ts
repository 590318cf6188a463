/** The load section of a scenario, by its kind. */
import { type LoadField, loadKinds, readingFields } from '../scenario/sections/load-fields.ts';
import { branchOf, byWord, type JsonSchema, type KeySchema } from './json-schema.ts';
import { fieldSchema } from './values.ts';

export const loadSchema: JsonSchema = {
  description: 'what the load does',
  ...byWord(
    'kind',
    'kind of load',
    Object.fromEntries(
      Object.entries(loadKinds).map(([kind, fields]) => [kind, { schema: kindSchema(kind, fields) }]),
    ),
  ),
};

function kindSchema(kind: string, fields: Readonly<Record<string, LoadField>>): JsonSchema {
  return branchOf({
    kind: { schema: { const: kind }, required: true },
    ...keysOf(fields),
    ...(kind === 'recorded'
      ? {
          reading: {
            schema: branchOf(keysOf(readingFields), { description: 'how the recording is read' }),
            required: true,
          },
        }
      : {}),
  });
}

function keysOf(fields: Readonly<Record<string, LoadField>>): Record<string, KeySchema> {
  return Object.fromEntries(
    Object.entries(fields).map(([key, { field, fallback }]): [string, KeySchema] => {
      const one = fieldSchema(field, fallback);
      // Several columns may be written as a list.
      const schema: JsonSchema =
        field.kind === 'text'
          ? {
              description: field.means,
              anyOf: [one, { type: 'array', items: { type: ['string', 'number'] } }],
            }
          : one;
      return [key, { schema, required: fallback === undefined }];
    }),
  );
}
