/**
 * A cabinet of one shelf, as many trays and banks as asked for and one or two sleds: little holds its bus, so that a
 * short pulls nodes to 0 V and beyond within a fraction of a millisecond. Banks stand far from the sleds, beside trays.
 */

import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

export interface SmallCabinet {
  readonly trays: number;
  readonly banks: number;
  readonly batteries: number;
  readonly sleds: number;
  /** Settled unless it is said. */
  readonly start?: 'converged-cycle';
  readonly load: string;
  readonly duration: string;
  readonly events: readonly string[];
  readonly changes?: Readonly<Record<string, string>>;
}

const ids = (letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, k) => `${letter}${k + 1}`);

function cabinetText({ trays, banks, batteries, sleds }: SmallCabinet): string {
  const units = ['S1', ...ids('B', batteries), ...ids('T', trays), ...ids('K', banks)];
  return `cabinet: small
title: A small cabinet
about: One shelf.
nominal: { value: 50 V, source: assumed, why: test }
rated: { value: 30 kW, source: assumed, why: test }
feeders: { model: feeder-400v-50hz.yaml, units: [F1] }
sections:
  A: [${units.join(', ')}]
bars:
  model: bars-copper.yaml
  links:
    L1: { section: A, place: 1, rack: 1 }
    L2: { section: A, place: 2, rack: ${sleds} }
shelves:
  model: shelf-36kw.yaml
  units:
    S1: { feeder: F1, set_point_offset: 0.1 %, start_delay: 2 s }
trays: { model: tray-20kw.yaml, units: [${ids('T', trays).join(', ')}] }
banks: { model: bank-80mf.yaml, units: [${ids('K', banks).join(', ')}] }
batteries: { model: battery-60kw.yaml, units: [${ids('B', batteries).join(', ')}] }
sleds:
  model: sled-15kw.yaml
  units:
${ids('sled-', sleds)
  .map((id) => `    ${id}: { weight: 100 }`)
  .join('\n')}
firmware: firmware-reference.yaml
limits: limits-default.yaml
`;
}

export function smallCabinet(asked: SmallCabinet): Scenario {
  const own: Readonly<Record<string, string>> = {
    'models/small.yaml': cabinetText(asked),
    'scenarios/small.yaml': `title: A small cabinet
cabinet: ../models/small.yaml
duration: ${asked.duration}
start: ${asked.start ?? 'settled'}
outage: true
load: ${asked.load}
events:${asked.events.length === 0 ? ' []' : asked.events.map((event) => `\n  - { ${event} }`).join('')}
`,
  };
  const files = (path: string) => {
    const text = own[path];
    return text === undefined ? readTextFile(path) : { text, sha256: '0' };
  };
  const changes = Object.entries(asked.changes ?? {}).map(([path, value]) => ({ path, value }));
  return readScenario('scenarios/small.yaml', { files, changes }).scenario;
}
