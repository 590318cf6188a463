/** The schema of every kind of file that users write, by its name. */
import { cabinetSchema } from './cabinet.ts';
import type { JsonSchema } from './json-schema.ts';
import { gainsSchema, limitsSchema } from './limits.ts';
import { modelSchema, modelShapes } from './model.ts';
import { scenarioSchema } from './scenario.ts';
import { studySchema } from './study.ts';

const schemas: Readonly<Record<string, JsonSchema>> = {
  scenario: scenarioSchema,
  cabinet: cabinetSchema,
  ...Object.fromEntries(modelShapes.map((shape) => [shape.model, modelSchema(shape)])),
  limits: limitsSchema,
  gains: gainsSchema,
  study: studySchema,
};

/** The schemas as files hold them. */
export const schemaDocuments: Readonly<Record<string, JsonSchema>> = Object.fromEntries(
  Object.entries(schemas).map(([name, schema]) => [
    name,
    { $schema: 'http://json-schema.org/draft-07/schema#', ...schema },
  ]),
);

/**
 * Which of them a file is of, by the keys that its text begins lines with: `model: shelf` is a shelf, `study: size` a study,
 * `cabinet:` with `sections:` a cabinet, with `load:` a scenario.
 */
export function schemaNameOf(text: string): string {
  const says = (key: string): string | undefined => new RegExp(`^${key}\\s*:\\s*(\\S*)`, 'm').exec(text)?.[1];
  const model = says('model');
  if (model !== undefined) return model;
  if (says('study') !== undefined) return 'study';
  if (says('rows') !== undefined) return 'limits';
  if (says('sections') !== undefined) return 'cabinet';
  return says('values') !== undefined ? 'gains' : 'scenario';
}
