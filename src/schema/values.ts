/** Single values of files, as an editor sees them: a quantity with its unit is a text, a bare number or flag is none. */
import { exampleOf, formatPercent, formatQuantity, isBare, nameOf } from '../base/quantity.ts';
import { quantityPattern, type Sign } from '../base/quantity-pattern.ts';
import type { ParameterSpec } from '../scenario/parameter.ts';
import type { FieldSpec, FieldValue } from '../scenario/text/field.ts';
import type { JsonSchema } from './json-schema.ts';

/** A text that is not empty; YAML reads some as numbers or flags. */
export function textSchema(description: string): JsonSchema {
  return { description, type: ['string', 'number', 'boolean'], minLength: 1 };
}

/** A text that may be empty. */
export function remarkSchema(description: string): JsonSchema {
  return { description, type: ['string', 'number', 'boolean', 'null'] };
}

/** The name of another file. */
export function fileSchema(description: string): JsonSchema {
  return { description: `${description}; beside this file`, type: 'string', minLength: 1 };
}

/** `fallback`: what holds where the file is silent; null: nothing does. */
export function fieldSchema(field: FieldSpec, fallback?: FieldValue): JsonSchema {
  switch (field.kind) {
    case 'quantity': {
      const value = quantitySchema(field.spec, fallback);
      if (field.none !== true) return value;
      const { description, ...rest } = value;
      return { description: `${description}; or none`, anyOf: [rest, { const: 'none' }] };
    }
    case 'choice':
      return { description: field.means, enum: field.of, ...defaultOf(fallback) };
    case 'flag':
      return {
        description: field.means,
        enum: [true, false, 'true', 'false', 'yes', 'no'],
        ...defaultOf(fallback),
      };
    case 'text':
      return textSchema(field.means);
    default:
      return field satisfies never;
  }
}

function defaultOf(fallback: FieldValue | undefined): Pick<JsonSchema, 'default'> {
  return fallback === undefined || fallback === null ? {} : { default: fallback };
}

/** A quantity of a parameter. Bounds hold for bare numbers; of a text with a unit the pattern sees unit and sign. */
function quantitySchema(spec: ParameterSpec, fallback: FieldValue | undefined = spec.fallback): JsonSchema {
  const { dimension, min, max, exclusive } = spec;
  const sign: Sign =
    min < 0 ? 'any' : exclusive === true || min > 0 ? 'none below, nor 0 with a minus' : 'not negative';
  const text: JsonSchema = { type: 'string', pattern: quantityPattern(dimension, sign) };
  const told = {
    description: sentenceOf(spec),
    examples: [exampleOf(dimension).split(' or ')[0]!],
    ...(typeof fallback === 'number' ? { default: writtenAs(fallback, spec) } : {}),
  };
  if (!isBare(dimension)) return { ...told, ...text };
  const number: JsonSchema = {
    type: dimension === 'count' ? 'integer' : 'number',
    ...(exclusive === true ? { exclusiveMinimum: min } : { minimum: min }),
    maximum: max,
  };
  return { ...told, anyOf: [number, text] };
}

/** What it means, its range, what is usual and what holds where a file is silent. */
export function sentenceOf(spec: ParameterSpec): string {
  const { means, dimension, usual, fallback } = spec;
  return [
    means,
    `${nameOf(dimension)} ${rangeOf(spec)}`,
    ...(usual === undefined ? [] : [`usually ${writtenAs(usual[0], spec)} to ${writtenAs(usual[1], spec)}`]),
    ...(fallback === undefined ? [] : [`${writtenAs(fallback, spec)} where nothing is written`]),
  ].join('; ');
}

/** Its bounds, for people. */
export function rangeOf(spec: ParameterSpec): string {
  const { min, max, exclusive } = spec;
  return `${exclusive === true ? 'above' : 'from'} ${writtenAs(min, spec)} to ${writtenAs(max, spec)}`;
}

/** A value as a file may have it. */
export function writtenAs(value: number, { dimension }: ParameterSpec): string {
  return dimension === 'ratio' && value !== 0 && Math.abs(value) <= 2
    ? formatPercent(value, 6)
    : formatQuantity(value, dimension);
}
