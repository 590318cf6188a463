/** Study files, by the kind of study. */
import { figureParameters } from '../scenario/parameters/figures.ts';
import { placedFamilies } from '../scenario/tables.ts';
import { quantity } from '../scenario/text/field.ts';
import { figureNoteKeys } from '../studies/written/figures.ts';
import { studyKeys, studySectionKeys, studyWordKeys } from '../studies/written/read-study.ts';
import { branchOf, branchOfKeys, byWord, type JsonSchema, type KeySchema, namedOf } from './json-schema.ts';
import { sourced } from './model.ts';
import { fieldSchema, fileSchema, remarkSchema, textSchema } from './values.ts';

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
    'what is varied, least first: a path with its values, or a name with designs',
  ),
  cases: namedOf(
    branchOf({ scenario: { schema: fileSchema('a scenario of its own') }, changes: { schema: changes } }),
    'loads or events that all must pass',
  ),
  corners: variants('states of the cabinet that all must pass'),
  redundancy: variants('what is out of service, each of which must pass'),
  levers: variants('changes that may help, tried one by one'),
  faults: variants('what fails, by name'),
  every_fault: branchOf(
    {
      at: { schema: textSchema('when each fault happens'), required: true },
      units: {
        schema: { description: 'one unit of a kind, or each', enum: ['one', 'each'], default: 'one' },
      },
      back: { schema: { ...textSchema('when what passes is over'), default: '1 s' } },
    },
    { description: 'one fault of each kind of event' },
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
    { description: 'what a unit of a kind costs, weighs and takes up, each with its source' },
  ),
  scale: { description: 'paths that are scaled', type: 'array', items: textSchema('a path') },
  tolerances: namedOf(texts, 'how each value is distributed, by path'),
};

const words: Readonly<Record<string, string>> = {
  least: 'which of two axes is made least first',
  objectives: 'one or two of cost, mass, rack_units, losses, headroom and yield, separated by commas',
  from: 'smallest scale',
  to: 'largest scale',
  within: 'how close the answer is',
  duty: 'duties of the curve, separated by commas',
  period: 'periods of the curve, separated by commas',
  pairs: 'yes: every two of the faults at once as well',
  moments: 'how many moments of the cycle each fault is tried at',
  samples: 'how many samples are drawn',
  seed: 'seed of the draws',
  sampling: 'latin-hypercube or plain',
  half_width: 'half width of the interval at which it may stop early',
  of: 'what the sensitivity is of',
  models: 'whether tolerances of the models are drawn too',
  rare: 'how many runs in all for a small probability of failing',
};

export const studySchema: JsonSchema = {
  title: 'Study',
  ...byWord(
    'study',
    'kind of study',
    Object.fromEntries(
      Object.entries(studySectionKeys).map(([kind, keys]) => {
        const wordKeys = studyWordKeys[kind as keyof typeof studyWordKeys];
        const common: Readonly<Record<string, KeySchema>> = {
          study: { schema: { const: kind }, required: true },
          title: { schema: remarkSchema('one line that says what is studied'), required: true },
          about: { schema: remarkSchema('what else is to be known') },
          scenario: { schema: fileSchema('the scenario that everything starts from'), required: true },
          changes: { schema: { ...changes, description: 'changes made in every trial' } },
        };
        const schema = branchOfKeys([...studyKeys, ...keys, ...wordKeys], {
          ...common,
          ...Object.fromEntries(keys.map((key) => [key, { schema: sections[key]! }])),
          ...Object.fromEntries(wordKeys.map((key) => [key, { schema: textSchema(words[key]!) }])),
        });
        return [kind, { schema }];
      }),
    ),
  ),
};
