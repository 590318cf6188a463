/** Cabinets that limit cycles are looked at in: the bench's one shelf, and two alike about a bank, as small as a share loop can be. */
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Change, Scenario } from '../../src/scenario/scenario.ts';

const twins = `cabinet: twins
title: Two shelves
about: Two shelves alike, on both sides of a bank.
nominal: { value: 50 V, source: assumed, why: measured between two }
rated: { value: 30 kW, source: assumed, why: measured between two }
feeders: { model: feeder-400v-50hz.yaml, units: [F1] }
sections:
  A: [S1, K1, S2]
bars:
  model: bars-copper.yaml
  links:
    L1: { section: A, place: 2, rack: 1 }
shelves:
  model: shelf-36kw.yaml
  units:
    S1: { feeder: F1 }
    S2: { feeder: F1 }
trays: { model: tray-20kw.yaml, units: [] }
banks: { model: bank-80mf.yaml, units: [K1] }
batteries: { model: battery-60kw.yaml, units: [] }
sleds:
  model: sled-15kw.yaml
  units:
    sled-1: { weight: 1 }
firmware: firmware-reference.yaml
limits: limits-default.yaml
`;
const cabinetOf = { one: 'bench-cabinet', two: 'twins' } as const;

/** Changes are written as `path=value`. */
export function cabinetWith(shelves: 'one' | 'two', words: readonly string[]): Scenario {
  const own: Readonly<Record<string, string>> = {
    'models/twins.yaml': twins,
    'scenarios/cycles.yaml': `title: Limit cycles
cabinet: ../models/${cabinetOf[shelves]}.yaml
duration: 1 s
start: settled
load: { kind: constant, power: 12 kW }
`,
  };
  const changes: Change[] = words.map((word) => {
    const cut = word.indexOf('=');
    return { path: word.slice(0, cut), value: word.slice(cut + 1) };
  });
  const files = (path: string) => {
    const text = own[path];
    return text === undefined ? readTextFile(path) : { text, sha256: '0' };
  };
  return readScenario('scenarios/cycles.yaml', { files, changes }).scenario;
}
