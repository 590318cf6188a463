/** What happens in a run, by its kind. */
import { eventFields, eventKinds, furtherFields, occurrences } from '../scenario/occurrences.ts';
import { isRequired } from '../scenario/sections/event-fields.ts';
import { branchOf, byWord, type JsonSchema, type KeySchema } from './json-schema.ts';
import { fieldSchema } from './values.ts';

export const eventsSchema: JsonSchema = {
  description: 'what happens in the run',
  type: 'array',
  items: byWord(
    'what',
    'what happens',
    Object.fromEntries(
      eventKinds.map((kind) => {
        const keys = [...Object.entries(eventFields), ...furtherFields(kind)].map(
          ([key, field]): [string, KeySchema] => [
            key,
            {
              schema:
                key === 'what' ? { const: kind, description: occurrences[kind].means } : fieldSchema(field),
              required: isRequired(key, occurrences[kind]),
            },
          ],
        );
        return [kind, { schema: branchOf(Object.fromEntries(keys)) }];
      }),
    ),
  ),
};
