/** The files that the pages show as examples are read without a problem. */
import { normalize } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Files } from '../../src/scenario/text/desk.ts';
import { readStudy } from '../../src/studies/written/read-study.ts';
import type { StudyKind } from '../../src/studies/written/study-file.ts';
import { blocks, textOf } from './read-pages.ts';

/** The files of the project with one more, whose text is given. */
const withFile =
  (file: string, text: string) =>
  (name: string): ReturnType<Files> =>
    normalize(name) === file ? { text, sha256: '' } : readTextFile(name);

describe('examples', () => {
  it('of a scenario are read without a problem', () => {
    const [scenario] = blocks(textOf('scenarios/README.md'), 'yaml');
    const files = withFile('scenarios/example.yaml', scenario!);
    const { warnings, scenario: read } = readScenario('scenarios/example.yaml', { files });
    expect(warnings).toEqual([]);
    expect(read.events).toHaveLength(1);
  });

  it('of waivers and conditions are read without a problem', () => {
    const signed = blocks(textOf('scenarios/README.md'), 'yaml').find((block) =>
      block.startsWith('waivers:'),
    )!;
    const text = `${textOf('scenarios/pulse-train.yaml')}\n${signed}`;
    const { scenario } = readScenario('scenarios/example.yaml', {
      files: withFile('scenarios/example.yaml', text),
    });
    expect([scenario.waivers.length, scenario.conditions.length]).toEqual([1, 1]);
  });

  it('of a recorded load are read without a problem', () => {
    const load = blocks(textOf('scenarios/loads/README.md'), 'yaml').find((block) =>
      block.startsWith('load:'),
    )!;
    const text = `title: example\ncabinet: ../models/reference-cabinet.yaml\nduration: 10 s\n${load}`;
    const { scenario } = readScenario('scenarios/example.yaml', {
      files: withFile('scenarios/example.yaml', text),
    });
    expect(scenario.load.kind).toBe('recorded');
  });

  it('of a cabinet are read without a problem', () => {
    const [cabinet] = blocks(textOf('models/README.md'), 'yaml');
    const scenario =
      'title: example\ncabinet: ../models/example.yaml\nduration: 1 s\nload: { kind: constant, power: 20 kW }\nchanges: { shelves.count: 3 }\n';
    const files = withFile('models/example.yaml', cabinet!);
    const read = readScenario('scenarios/example.yaml', {
      files: (name) =>
        normalize(name) === 'scenarios/example.yaml' ? { text: scenario, sha256: '' } : files(name),
    });
    expect(read.warnings).toEqual([]);
    expect(read.scenario.shelves).toHaveLength(3);
  });

  it('of gains and controllers are read without a problem', () => {
    const yaml = blocks(textOf('models/README.md'), 'yaml');
    const gains = withFile('models/example.yaml', yaml.find((block) => block.startsWith('gains:'))!);
    const controllers = yaml.find((block) => block.startsWith('controllers:'))!;
    const text = `${textOf('scenarios/single-step.yaml')}\ngains: ../models/example.yaml\n${controllers}`;
    const { scenario } = readScenario('scenarios/example.yaml', {
      files: (name) => (normalize(name) === 'scenarios/example.yaml' ? { text, sha256: '' } : gains(name)),
    });
    expect(scenario.controllers).toHaveLength(2);
  });

  it('of a study are read without a problem', () => {
    const [study] = blocks(textOf('scenarios/studies/README.md'), 'yaml');
    const kind = /^study: (\w+)/.exec(study!)![1] as StudyKind;
    const files = withFile('scenarios/studies/example.yaml', study!);
    expect(readStudy('scenarios/studies/example.yaml', kind, files).corners).toHaveLength(2);
  });
});
