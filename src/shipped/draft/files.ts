/** Every file of a drafted cabinet, by its name in a folder of its own. */
import { type Answers, type Draft, draftFrom } from './answers.ts';
import { cabinetText } from './cabinet-text.ts';
import type { Shipped } from './derived-model.ts';
import { draftedModels } from './models.ts';
import { layoutOf } from './places.ts';
import { scenarioTexts } from './scenario-texts.ts';
import { studyTexts } from './study-texts.ts';

export interface Drafted {
  readonly draft: Draft;
  readonly files: Readonly<Record<string, string>>;
}

/** `schemas`: folder of the JSON Schemas as the files name it. Throws BadInput where an answer is wrong. */
export function draftedFiles(name: string, answers: Answers, shipped: Shipped, schemas: string): Drafted {
  const draft = draftFrom(answers);
  const layout = layoutOf(draft);
  const models = draftedModels(draft, shipped, schemas);
  return {
    draft,
    files: {
      'cabinet.yaml': cabinetText(name, draft, layout, models, schemas),
      ...scenarioTexts(name, draft, schemas),
      ...studyTexts(name, draft, layout, schemas),
      ...models.files,
    },
  };
}
