/** JSON Schema (draft 7, which editors know) as far as it is written here. */
export interface JsonSchema {
  readonly $schema?: string;
  readonly title?: string;
  readonly description?: string;
  readonly type?: SchemaType | readonly SchemaType[];
  readonly const?: string;
  readonly enum?: readonly (string | boolean)[];
  readonly pattern?: string;
  readonly minLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly default?: string | number | boolean;
  readonly examples?: readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly patternProperties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  readonly propertyNames?: JsonSchema;
  readonly required?: readonly string[];
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly allOf?: readonly JsonSchema[];
  readonly if?: JsonSchema;
  readonly then?: JsonSchema;
  readonly else?: JsonSchema;
}

type SchemaType = 'string' | 'number' | 'integer' | 'boolean' | 'object' | 'array' | 'null';

/** One of the keys of a branch: what it may hold, and whether it must be there. */
export interface KeySchema {
  readonly schema: JsonSchema;
  readonly required?: boolean;
}

/** A branch with these keys and no others. */
export function branchOf(
  keys: Readonly<Record<string, KeySchema>>,
  about: Pick<JsonSchema, 'title' | 'description'> = {},
): JsonSchema {
  const required = Object.entries(keys).flatMap(([key, one]) => (one.required === true ? [key] : []));
  return {
    ...about,
    type: 'object',
    properties: Object.fromEntries(Object.entries(keys).map(([key, { schema }]) => [key, schema])),
    ...(required.length === 0 ? {} : { required }),
    additionalProperties: false,
  };
}

/** The same, of keys that a reader allows: throws RangeError where a key has no schema or a schema no key. */
export function branchOfKeys(
  allowed: readonly string[],
  keys: Readonly<Record<string, KeySchema>>,
  about: Pick<JsonSchema, 'title' | 'description'> = {},
): JsonSchema {
  const odd = [
    ...allowed.filter((key) => !Object.hasOwn(keys, key)),
    ...Object.keys(keys).filter((key) => !allowed.includes(key)),
  ];
  if (odd.length > 0) throw new RangeError(`keys of reader and schema differ: ${odd.join(', ')}`);
  return branchOf(keys, about);
}

/** A branch whose keys are names that the user gives. */
export function namedOf(schema: JsonSchema, description: string): JsonSchema {
  return { type: 'object', description, additionalProperties: schema };
}

/**
 * Branches that one key tells apart: `kinds` gives for each of its words what the branch then is. Written as conditions, of
 * which an editor shows the one that holds.
 */
export function byWord(
  key: string,
  means: string,
  kinds: Readonly<Record<string, { readonly means?: string; readonly schema: JsonSchema }>>,
): JsonSchema {
  return {
    type: 'object',
    properties: { [key]: { description: means, enum: Object.keys(kinds) } },
    required: [key],
    allOf: Object.entries(kinds).map(([word, { schema }]) => ({
      if: { properties: { [key]: { const: word } }, required: [key] },
      // biome-ignore lint/suspicious/noThenProperty: a word of JSON Schema
      then: schema,
    })),
  };
}
