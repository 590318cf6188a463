/** Model files: every number with its source. */

import { extremes } from '../scenario/part-states.ts';
import { barsShape } from '../scenario/sections/bars.ts';
import { firmwareShape } from '../scenario/sections/cabinet.ts';
import { unitShape } from '../scenario/sections/units.ts';
import { choiceOf, families } from '../scenario/tables.ts';
import { type FieldSpec, quantity } from '../scenario/text/field.ts';
import { modelHeads } from '../scenario/text/model.ts';
import type { Model, ModelShape } from '../scenario/text/model-file.ts';
import {
  commonField,
  distributionField,
  noteKeys,
  sources,
  toleranceField,
} from '../scenario/text/sourced.ts';
import { branchOf, branchOfKeys, type JsonSchema, type KeySchema } from './json-schema.ts';
import { fieldSchema, fileSchema, remarkSchema, textSchema } from './values.ts';

export type { Model };

/** `{ value, source, why, … }`: why, or the citation of a published number. */
export function sourcedSchema(field: FieldSpec): JsonSchema {
  const value = fieldSchema(field);
  return {
    ...sourced(noteKeys, {
      value: { schema: value, required: true },
      low: { schema: value },
      high: { schema: value },
      distribution: { schema: fieldSchema(distributionField) },
      common: { schema: fieldSchema(commonField) },
      tolerance: { schema: fieldSchema(toleranceField) },
      ...Object.fromEntries(extremes.map((key): [string, KeySchema] => [key, { schema: value }])),
    }),
    description: value.description ?? '',
  };
}

/** Keys of a branch, its source among them. */
export function sourced(allowed: readonly string[], keys: Readonly<Record<string, KeySchema>>): JsonSchema {
  const branch = branchOfKeys(allowed, {
    ...keys,
    source: { schema: { description: 'where the number comes from', enum: sources }, required: true },
    why: { schema: textSchema('the reason of a number that is not published') },
    citation: { schema: textSchema('a published number: what others can look up') },
  });
  return {
    ...branch,
    if: { properties: { source: { const: 'published' } }, required: ['source'] },
    // biome-ignore lint/suspicious/noThenProperty: a word of JSON Schema
    then: { required: ['citation'] },
    else: { required: ['why'] },
  };
}

/** The schema of a model file. */
export function modelSchema({ model, under, tables, words = {} }: ModelShape): JsonSchema {
  const parts = Object.entries(tables).map(([part, table]): [string, KeySchema] => {
    const fields = [
      ...Object.entries(table).map(
        ([key, spec]) => [key, quantity(spec), spec.optional === true ? null : spec.fallback] as const,
      ),
      ...Object.entries(words)
        .filter(([path]) => path.startsWith(`${part}.`))
        .map(([path, spec]) => [path.slice(part.length + 1), choiceOf(spec), spec.fallback] as const),
    ];
    const keys = fields.map(([key, field, fallback]): [string, KeySchema] => [
      key,
      { schema: sourcedSchema(field), required: fallback === undefined },
    ]);
    return [part, { schema: branchOf(Object.fromEntries(keys)), required: hasDemands(keys) }];
  });
  const whole = under === 'parameters' ? parts[0]![1].schema : branchOf(Object.fromEntries(parts));
  const free = under === 'parameters' ? freed(whole) : freed(whole, freed);
  return {
    ...branchOf(
      {
        ...Object.fromEntries(
          Object.entries(modelHeads).map(([key, means]): [string, KeySchema] => [
            key,
            { schema: key === 'like' ? fileSchema(means) : remarkSchema(means) },
          ]),
        ),
        model: { schema: { description: modelHeads.model, const: model }, required: true },
        [under]: { schema: { ...free, description: 'the numbers, each with its source' } },
      },
      { title: `Model of kind ${model}` },
    ),
    // What is like another model states what differs; what is not states all of it.
    if: { required: ['like'] },
    else: { properties: { [under]: demandsOf(whole, under === 'parameters' ? 0 : 1) }, required: [under] },
  };
}

function hasDemands(keys: readonly (readonly [string, KeySchema])[]): boolean {
  return keys.some(([, { required }]) => required === true);
}

/** A branch in which nothing must be there; `inner`: what becomes of its keys. */
function freed(
  branch: JsonSchema,
  inner: (schema: JsonSchema) => JsonSchema = (schema) => schema,
): JsonSchema {
  const { required: _, properties = {}, ...rest } = branch;
  const keys = Object.entries(properties).map(([key, schema]) => [key, inner(schema)] as const);
  return { ...rest, properties: Object.fromEntries(keys) };
}

/** What must be there of a branch alone, and so many levels below it. */
function demandsOf({ required = [], properties = {} }: JsonSchema, levels: number): JsonSchema {
  const own = required.length === 0 ? {} : { required };
  if (levels === 0) return own;
  const below = Object.entries(properties).map(
    ([key, schema]) => [key, demandsOf(schema, levels - 1)] as const,
  );
  return { ...own, properties: Object.fromEntries(below) };
}

/** Every kind of model file. */
export const modelShapes: readonly ModelShape[] = [...families.map(unitShape), barsShape, firmwareShape];
