/** Cabinet files: units, places, bars, and the files of firmware and limits. */
import { cabinetKeys } from '../scenario/sections/cabinet.ts';
import { demandedKeys } from '../scenario/sections/units.ts';
import {
  barParts,
  cabinetTable,
  closed,
  type Family,
  families,
  fitted,
  linkPlace,
  linkRack,
  numbersOf,
  type ParameterTable,
  placedFamilies,
} from '../scenario/tables.ts';
import { quantity } from '../scenario/text/field.ts';
import { branchOf, branchOfKeys, type JsonSchema, type KeySchema, namedOf } from './json-schema.ts';
import { sourcedSchema } from './model.ts';
import { fieldSchema, fileSchema, remarkSchema, textSchema } from './values.ts';

const names: JsonSchema = {
  type: 'array',
  items: textSchema('a name'),
};

const unitName: JsonSchema = { pattern: '^[A-Za-z][\\w-]*$' };

export const cabinetSchema: JsonSchema = branchOfKeys(
  cabinetKeys,
  {
    cabinet: { schema: textSchema('the name of the cabinet'), required: true },
    title: { schema: remarkSchema('one line that says what it is') },
    about: { schema: remarkSchema('what else is to be known') },
    ...mapped(Object.entries(cabinetTable), ([key, spec]) => [
      key,
      { schema: sourcedSchema(quantity(spec)), required: true },
    ]),
    ...mapped(families, (family) => [family, { schema: unitsSchema(family), required: true }]),
    sections: {
      schema: namedOf(names, 'the sections of the cabinet bar: units in their places, from the link end'),
      required: true,
    },
    bars: { schema: barsSchema(), required: true },
    firmware: { schema: fileSchema('model file of the firmware'), required: true },
    limits: { schema: fileSchema('limits file'), required: true },
  },
  { title: 'Cabinet' },
);

function mapped<T>(
  items: readonly T[],
  entry: (item: T) => readonly [string, KeySchema],
): Readonly<Record<string, KeySchema>> {
  return Object.fromEntries(items.map(entry));
}

/** Values that may stand where a model's are written over. */
function ownValues(table: ParameterTable): Readonly<Record<string, KeySchema>> {
  return mapped(Object.entries(table), ([key, spec]) => [key, { schema: fieldSchema(quantity(spec)) }]);
}

function unitsSchema(family: Family): JsonSchema {
  const placed = placedFamilies.includes(family);
  const demanded = Object.entries(demandedKeys(family, []));
  const own = branchOf({
    model: { schema: fileSchema('model file of this unit') },
    ...mapped(demanded, ([key, field]) => [
      key,
      {
        schema: field.kind === 'choice' ? textSchema(field.means) : fieldSchema(field),
        required: true,
      },
    ]),
    ...(placed ? { fitted: { schema: fieldSchema(fitted, true) } } : {}),
    ...ownValues(numbersOf(family)),
  });
  const alone: JsonSchema[] = demanded.length === 0 ? [{ type: 'null' }] : [];
  const byName: JsonSchema = {
    type: 'object',
    propertyNames: unitName,
    additionalProperties: alone.length === 0 ? own : { anyOf: [...alone, own] },
  };
  return branchOf({
    model: { schema: fileSchema(`model file that all ${family} share`) },
    units: {
      schema: {
        description: 'their names, or names with values of their own',
        anyOf: [
          ...(demanded.length === 0 ? [{ ...names, items: { type: 'string', ...unitName } } as const] : []),
          byName,
        ],
      },
      required: true,
    },
    ...(placed
      ? {
          fill: {
            schema: { ...names, description: 'in which order they are fitted where a change says how many' },
          },
        }
      : {}),
  });
}

function barsSchema(): JsonSchema {
  const joint = { closed: { schema: fieldSchema(closed, true) } };
  const link = branchOf({
    section: { schema: textSchema('the section it starts from'), required: true },
    place: { schema: fieldSchema(linkPlace), required: true },
    rack: { schema: fieldSchema(linkRack), required: true },
    ...joint,
    ...ownValues(barParts.link),
  });
  const tie = branchOf({
    id: { schema: textSchema('its name') },
    ...joint,
    ...ownValues(barParts.tie),
  });
  return branchOf({
    model: { schema: fileSchema('model file of the bars'), required: true },
    links: { schema: namedOf(link, 'the link bars to the rack'), required: true },
    tie: { schema: { description: 'joins the far ends of two sections', anyOf: [tie, { const: 'none' }] } },
  });
}
