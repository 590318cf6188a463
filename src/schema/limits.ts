/** Limits files and gains files. */
import { gainsFileKeys, gainsValueKeys } from '../scenario/sections/gains-file.ts';
import {
  limitColumn,
  limitColumns,
  limitFrequency,
  limitRowKeys,
  limitStay,
  limitsFileKeys,
  limitUnits,
  limitWords,
} from '../scenario/sections/limit-rows.ts';
import { branchOfKeys, byWord, type JsonSchema, type KeySchema, namedOf } from './json-schema.ts';
import { sourced } from './model.ts';
import { fieldSchema, remarkSchema, textSchema } from './values.ts';

const rowSchema: JsonSchema = byWord(
  'unit',
  limitWords.unit.means,
  Object.fromEntries(
    Object.entries(limitUnits).map(([unit, dimension]) => {
      const keys = [
        ...Object.entries(limitWords).map(([key, field]): [string, KeySchema] => [
          key,
          { schema: fieldSchema(field), required: true },
        ]),
        ...limitColumns.map((column): [string, KeySchema] => [
          column,
          { schema: fieldSchema(limitColumn(dimension, column)), required: true },
        ]),
      ];
      const schema = sourced(limitRowKeys, {
        ...Object.fromEntries(keys),
        band: {
          schema: {
            description: 'frequency band that is looked at',
            type: 'string',
            examples: ['0.5 Hz to 3 Hz'],
          },
        },
        stay: { schema: fieldSchema(limitStay) },
        needs: { schema: fieldSchema(limitFrequency) },
      });
      return [unit, { schema }];
    }),
  ),
);

export const limitsSchema: JsonSchema = branchOfKeys(
  limitsFileKeys,
  {
    limits: { schema: textSchema('the name of this set of limits'), required: true },
    title: { schema: remarkSchema('one line that says what it is') },
    about: { schema: remarkSchema('what else is to be known') },
    rows: { schema: namedOf(rowSchema, 'limits by their ids'), required: true },
  },
  { title: 'Limits' },
);

const gain = sourced(gainsValueKeys, {
  value: { schema: remarkSchema('the value, with its unit'), required: true },
});

export const gainsSchema: JsonSchema = branchOfKeys(
  gainsFileKeys,
  {
    gains: { schema: textSchema('the name of the gains'), required: true },
    title: { schema: remarkSchema('one line that says what they are') },
    about: { schema: remarkSchema('what else is to be known') },
    values: { schema: namedOf(gain, 'values by path, each with its source'), required: true },
  },
  { title: 'Gains' },
);
