/**
 * The text of a random cabinet: 1 to 8 shelves, 0 to 10 trays, 0 to 3 banks, 0 to 5 battery shelves, 1 to 16 sleds,
 * in one section or two, with links at random places, both shelf models and both feeders.
 */
import { type Draw, written } from './draw.ts';

export interface RandomCabinet {
  readonly text: string;
  /** What it can feed for long: the lesser of its shelves and its sleds [W]. */
  readonly able_W: number;
}

const shelfModels = [
  { file: 'shelf-36kw.yaml', power_W: 36e3 },
  { file: 'shelf-24kw.yaml', power_W: 24e3 },
] as const;

const feederModels = ['feeder-400v-50hz.yaml', 'feeder-480v-60hz.yaml'] as const;

const numbered = (letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, k) => `${letter}${k + 1}`);

export function randomCabinet(draw: Draw): RandomCabinet {
  const shelf = draw.pick(shelfModels);
  const shelves = numbered('S', draw.whole(1, 8));
  const trays = numbered('T', draw.whole(0, 10));
  const banks = numbered('K', draw.whole(0, 3));
  const batteries = numbered('B', draw.whole(0, 5));
  const sleds = numbered('sled-', draw.whole(1, 16));
  const feeders = numbered('F', draw.whole(1, 3));
  const placed = draw.shuffled([...shelves, ...trays, ...banks, ...batteries]);
  const cut = placed.length > 1 && draw.chance(0.6) ? draw.whole(1, placed.length - 1) : placed.length;
  const sections = [placed.slice(0, cut), placed.slice(cut)].filter((units) => units.length > 0);
  const able_W = Math.min(shelves.length * shelf.power_W, sleds.length * 15e3);
  const text = `cabinet: random
title: A random cabinet
about: Drawn to try the engine on what nobody would build.
nominal: { value: 50 V, source: assumed, why: drawn }
rated: { value: ${written(able_W / 1e3, 'kW')}, source: assumed, why: drawn }
feeders: { model: ${draw.pick(feederModels)}, units: [${feeders.join(', ')}] }
sections:
${sections.map((units, k) => `  ${'AB'[k]}: [${units.join(', ')}]`).join('\n')}
bars:
  model: bars-copper.yaml
  links:
${linkLines(draw, sections, sleds.length).join('\n')}
${sections.length > 1 ? `  tie: { id: tie, closed: ${draw.chance(0.8)} }` : ''}
shelves:
  model: ${shelf.file}
  units:
${shelves.map((id) => `    ${id}: { ${shelfValues(draw, feeders)} }`).join('\n')}
trays: { model: tray-20kw.yaml, units: [${trays.join(', ')}] }
banks: { model: bank-80mf.yaml, units: [${banks.join(', ')}] }
batteries: { model: battery-60kw.yaml, units: [${batteries.join(', ')}] }
sleds:
  model: sled-15kw.yaml
  units:
${sleds.map((id) => `    ${id}: { weight: ${draw.whole(50, 200)} }`).join('\n')}
firmware: firmware-reference.yaml
limits: limits-default.yaml
`;
  return { text, able_W };
}

function shelfValues(draw: Draw, feeders: readonly string[]): string {
  const offset = written(draw.between(-0.25, 0.25), '%');
  return `feeder: ${draw.pick(feeders)}, set_point_offset: ${offset}, start_delay: ${written(draw.between(1, 3), 's')}`;
}

/** At least one link from every section to the rack bar, so that no part stands alone. */
function linkLines(draw: Draw, sections: readonly (readonly string[])[], racks: number): string[] {
  return sections.flatMap((units, k) =>
    Array.from({ length: draw.whole(1, 3) }, (_, n) => {
      const section = 'AB'[k]!;
      const place = draw.whole(1, units.length);
      return `    L${section}${n + 1}: { section: ${section}, place: ${place}, rack: ${draw.whole(1, racks)} }`;
    }),
  );
}
