import { describe, expect, it } from 'vitest';
import { besideFile, stemOf } from '../../../src/scenario/text/paths.ts';

describe('besideFile', () => {
  it('takes a name relative to the folder of the file it stands in', () => {
    expect(besideFile('scenarios/a.yaml', '../models/b.yaml')).toBe('models/b.yaml');
    expect(besideFile('a.yaml', 'b.yaml')).toBe('b.yaml');
    expect(besideFile('../x/a.yaml', '../models/b.yaml')).toBe('../models/b.yaml');
    expect(besideFile('a.yaml', '../b.yaml')).toBe('../b.yaml');
    expect(besideFile('/x/y/a.yaml', './b.yaml')).toBe('/x/y/b.yaml');
    expect(besideFile('x/a.yaml', '/y/b.yaml')).toBe('/y/b.yaml');
  });

  it('names a scenario by its file', () => {
    expect(stemOf('scenarios/pulse-train.yaml')).toBe('pulse-train');
  });
});
