/** Study files, by the kind of study. */
import { figureParameters } from '../scenario/parameters/figures.ts';
import { placedFamilies } from '../scenario/tables.ts';
import { quantity } from '../scenario/text/field.ts';
import { figureNoteKeys } from '../studies/written/figures.ts';
import { studyKeys, studySectionKeys, studyWordKeys } from '../studies/written/read-study.ts';
import { studySectionMeanings, studyWordMeanings } from '../studies/written/word-meanings.ts';
import { branchOf, branchOfKeys, byWord, type JsonSchema, type KeySchema, namedOf } from './json-schema.ts';
import { sourced } from './model.ts';
import { fieldSchema, fileSchema, remarkSchema, textSchema } from './values.ts';

const meanings = studySectionMeanings;

const changes: JsonSchema = {
  description: 'changes, each written as path = value',
  type: 'array',
  items: { type: 'string', pattern: '^[^=]+=.+', examples: ['trays.capacitance = 130 F'] },
};

const variants = (description: string): JsonSchema => namedOf(changes, description);

/** One text, or several as a list. */
const texts: JsonSchema = {
  anyOf: [textSchema('a value'), { type: 'array', items: textSchema('a value') }],
};

const sections: Readonly<Record<string, JsonSchema>> = {
  vary: namedOf(
    { anyOf: [...texts.anyOf!, { ...variants('designs by name, least first') }] },
    meanings['vary']!,
  ),
  cases: namedOf(
    branchOf({ scenario: { schema: fileSchema('a scenario of its own') }, changes: { schema: changes } }),
    meanings['cases']!,
  ),
  corners: variants(meanings['corners']!),
  redundancy: variants(meanings['redundancy']!),
  levers: variants(meanings['levers']!),
  faults: variants(meanings['faults']!),
  stretches: namedOf(
    branchOf({
      for: { schema: textSchema('how long it lasts'), required: true },
      changes: { schema: changes },
    }),
    meanings['stretches']!,
  ),
  every_fault: branchOf(
    {
      at: { schema: textSchema('when each fault happens'), required: true },
      units: {
        schema: { description: 'one unit of a kind, or each', enum: ['one', 'each'], default: 'one' },
      },
      back: { schema: { ...textSchema('when what passes is over'), default: '1 s' } },
    },
    { description: meanings['every_fault']! },
  ),
  figures: branchOf(
    Object.fromEntries(
      placedFamilies.map((family) => [
        family,
        {
          schema: branchOf(
            Object.fromEntries(
              Object.entries(figureParameters).map(([figure, spec]) => [
                figure,
                {
                  schema: sourced(figureNoteKeys, {
                    value: { schema: fieldSchema(quantity(spec)), required: true },
                  }),
                },
              ]),
            ),
          ),
        },
      ]),
    ),
    { description: meanings['figures']! },
  ),
  scale: { description: meanings['scale']!, type: 'array', items: textSchema('a path') },
  tolerances: namedOf(texts, meanings['tolerances']!),
};

export const studySchema: JsonSchema = {
  title: 'Study',
  ...byWord(
    'study',
    meanings['study']!,
    Object.fromEntries(
      Object.entries(studySectionKeys).map(([kind, keys]) => {
        const wordKeys = studyWordKeys[kind as keyof typeof studyWordKeys];
        const common: Readonly<Record<string, KeySchema>> = {
          study: { schema: { const: kind }, required: true },
          title: { schema: remarkSchema(meanings['title']!), required: true },
          about: { schema: remarkSchema(meanings['about']!) },
          scenario: { schema: fileSchema(meanings['scenario']!), required: true },
          changes: { schema: { ...changes, description: meanings['changes']! } },
        };
        const schema = branchOfKeys([...studyKeys, ...keys, ...wordKeys], {
          ...common,
          ...Object.fromEntries(keys.map((key) => [key, { schema: sections[key]! }])),
          ...Object.fromEntries(
            wordKeys.map((key) => [key, { schema: textSchema(studyWordMeanings[key]!) }]),
          ),
        });
        return [kind, { schema }];
      }),
    ),
  ),
};
