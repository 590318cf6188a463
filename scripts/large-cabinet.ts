/**
 * The reference cabinet N times as large: both sections, the rack bar, links, shelves, trays, banks, battery shelves,
 * sleds and load N times over, one cabinet still: every part N times, one network. For timing how cost grows.
 */
import { readTextFile } from '../src/disk/read-file.ts';
import { readScenario } from '../src/scenario/read.ts';
import type { Scenario } from '../src/scenario/scenario.ts';

const order = {
  A: ['S', 'T', 'S', 'T', 'K', 'T', 'S', 'T', 'B', 'S', 'T', 'B', 'B'],
  B: ['S', 'T', 'S', 'T', 'K', 'T', 'S', 'T', 'B', 'S', 'T', 'B'],
} as const;

function cabinetText(size: number): string {
  const count = { S: 0, T: 0, K: 0, B: 0 };
  const sections = Object.entries(order).map(([section, kinds]) => {
    const ids: string[] = [];
    for (let block = 0; block < size; block++) for (const kind of kinds) ids.push(`${kind}${++count[kind]}`);
    return `  ${section}: [${ids.join(', ')}]`;
  });
  const ids = (kind: keyof typeof count): string =>
    Array.from({ length: count[kind] }, (_, k) => `${kind}${k + 1}`).join(', ');
  const links: string[] = [];
  for (let block = 0; block < size; block++) {
    const rack = 16 * block;
    links.push(`    LA1-${block}: { section: A, place: ${13 * block + 1}, rack: ${rack + 1} }`);
    links.push(`    LA2-${block}: { section: A, place: ${13 * block + 3}, rack: ${rack + 2} }`);
    links.push(`    LB1-${block}: { section: B, place: ${12 * block + 1}, rack: ${rack + 16} }`);
    links.push(`    LB2-${block}: { section: B, place: ${12 * block + 3}, rack: ${rack + 15} }`);
  }
  const shelves = Array.from({ length: count.S }, (_, k) => `    S${k + 1}: { feeder: F${1 + (k % 2)} }`);
  const sleds = Array.from(
    { length: 16 * size },
    (_, k) => `    sled-${k + 1}: { weight: ${180 + ((7 * k) % 16)} }`,
  );
  return `cabinet: large
title: The reference cabinet ${size} times over
about: For timing alone.
nominal: { value: 50 V, source: assumed, why: timing }
rated: { value: ${240 * size} kW, source: assumed, why: timing }
feeders: { model: feeder-400v-50hz.yaml, units: [F1, F2] }
sections:
${sections.join('\n')}
bars:
  model: bars-copper.yaml
  links:
${links.join('\n')}
  tie: { id: tie, closed: true }
shelves:
  model: shelf-36kw.yaml
  units:
${shelves.join('\n')}
trays: { model: tray-20kw.yaml, units: [${ids('T')}] }
banks: { model: bank-80mf.yaml, units: [${ids('K')}] }
batteries: { model: battery-60kw.yaml, units: [${ids('B')}] }
sleds:
  model: sled-15kw.yaml
  units:
${sleds.join('\n')}
firmware: firmware-reference.yaml
limits: limits-default.yaml
`;
}

/** A step at 20 ms from 100 to 240 kW for each sixteen sleds, on a cabinet of `size` times the units. */
export function largeScenario(size: number): Scenario {
  const scenario = `title: A step on a large cabinet
about: For timing alone.
expectation: none
cabinet: ../models/large-cabinet.yaml
duration: 0.3 s
start: settled
load: { kind: step, before: ${100 * size} kW, after: ${240 * size} kW, at: 20 ms, edge: 1 ms }
`;
  const own: Readonly<Record<string, string>> = {
    'scenarios/large.yaml': scenario,
    'models/large-cabinet.yaml': cabinetText(size),
  };
  const files = (path: string) => {
    const text = own[path];
    return text === undefined ? readTextFile(path) : { text, sha256: '0' };
  };
  const firmware = [
    { path: 'firmware.smoothing.load_low', value: `${31.2 * size} kW` },
    { path: 'firmware.smoothing.load_high', value: `${240 * size} kW` },
  ];
  return readScenario('scenarios/large.yaml', { files, changes: firmware }).scenario;
}
