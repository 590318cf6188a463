import { describe, expect, it } from 'vitest';
import type { Change } from '../../../src/scenario/scenario.ts';
import { messageOf, readShipped } from '../shipped.ts';

const pulseTrain = 'scenarios/pulse-train.yaml';

function withChanges(...pairs: readonly (readonly [path: string, value: string])[]) {
  const changes: Change[] = pairs.map(([path, value]) => ({ path, value }));
  return readShipped(pulseTrain, [], { changes }).scenario;
}

const orderOf = (scenario: ReturnType<typeof withChanges>, id: string): string =>
  scenario.sections.find((section) => section.id === id)!.order.join(' ');

describe('changes of what stands where', () => {
  it('add a tray behind another, with the values of its model, which later changes reach', () => {
    const scenario = withChanges(['trays.capacitance', '130 F'], ['trays.add', 'T11 in A after T5']);
    expect(orderOf(scenario, 'A')).toBe('S1 T1 S2 T2 K1 T3 S3 T4 B1 S4 T5 T11 B2 B3');
    const added = scenario.trays.find(({ id }) => id === 'T11')!;
    expect([added.values.capacitance_F, added.values.esr_ohm]).toEqual([130, 0.0024]);
  });

  it('add a unit of a kind that the cabinet has none of yet, with the values of the model that is named for it', () => {
    const changes = [{ path: 'batteries.add', value: 'B1 in A last' }];
    const { scenario } = readShipped('scenarios/bench-step.yaml', [], { changes });
    const [battery] = scenario.batteries;
    const [like] = readShipped(pulseTrain).scenario.batteries;
    expect(battery!.values).toEqual(like!.values);
    // Its model counts among the inputs, which a cabinet without one does not read.
    expect(scenario.inputs.some(({ path }) => path.endsWith('battery-60kw.yaml'))).toBe(true);
    expect(
      readShipped('scenarios/bench-step.yaml').scenario.inputs.some(({ path }) =>
        path.endsWith('battery-60kw.yaml'),
      ),
    ).toBe(false);
  });

  it.each([
    ['batteries', 'B1 in A last', 'model: battery-60kw.yaml, units: []', 'units: []'],
    [
      'trays',
      'T2 in A last',
      'model: tray-20kw.yaml, units: [T1]',
      'units: { T1: { model: tray-20kw.yaml } }',
    ],
  ])('refuse one of %s where no model is named for all of them', (kind, value, named, instead) => {
    const changes = [{ path: `${kind}.add`, value }];
    const swaps = [['models/bench-cabinet.yaml', named, instead]] as const;
    const said = messageOf(swaps, { changes }, 'scenarios/bench-step.yaml');
    expect(said).toContain(`expected  a cabinet with a model for all ${kind}, which new ones take`);
  });

  it('let ageing reach an added unit', () => {
    const scenario = withChanges(['ageing.trays', 'end-of-life'], ['trays.add', 'T11 in B last']);
    expect(scenario.trays.at(-1)?.values.capacitance_F).toBe(130);
  });

  it('keep a link bar at its unit when a place is added or moved before it', () => {
    const added = withChanges(['banks.add', 'K3 in A after S1']);
    const link = (scenario: typeof added, id: string) => scenario.bars.links.find((l) => l.id === id)!.place;
    expect([link(added, 'LA1'), link(added, 'LA2'), link(added, 'LB2')]).toEqual([1, 4, 3]);
    const moved = withChanges(['trays.move', 'T1 to A last']);
    expect(orderOf(moved, 'A')).toBe('S1 S2 T2 K1 T3 S3 T4 B1 S4 T5 B2 B3 T1');
    expect([link(moved, 'LA1'), link(moved, 'LA2')]).toEqual([1, 2]);
  });

  it('move a bank to the other section', () => {
    const scenario = withChanges(['banks.move', 'K1 to B first']);
    expect([orderOf(scenario, 'A'), orderOf(scenario, 'B')]).toEqual([
      'S1 T1 S2 T2 T3 S3 T4 B1 S4 T5 B2 B3',
      'K1 S5 T6 S6 T7 K2 T8 S7 T9 B4 S8 T10 B5',
    ]);
  });

  it('count trays by the order in which the cabinet fills its places', () => {
    const ids = (scenario: ReturnType<typeof withChanges>) => scenario.trays.map(({ id }) => id).join(' ');
    expect(ids(withChanges(['trays.count', '5']))).toBe('T1 T2 T3 T6 T7');
    const twelve = withChanges(['trays.count', '12']);
    expect(ids(twelve)).toBe('T1 T2 T3 T4 T5 T6 T7 T8 T9 T10 T11 T12');
    expect(orderOf(twelve, 'B').endsWith('T10 T12 B5')).toBe(true);
    expect(ids(withChanges(['trays.count', '11'], ['trays.T4.fitted', 'no'])).includes('T4')).toBe(false);
  });

  it('add a shelf on a feeder', () => {
    const scenario = withChanges(['shelves.add', 'S9 on F2 in B last']);
    expect(scenario.shelves.at(-1)).toMatchObject({ id: 'S9', feeder: 'F2' });
  });

  it('refuse, naming what there is', () => {
    const say = (path: string, value: string) => messageOf([], { changes: [{ path, value }] });
    expect(say('trays.add', 'T11 behind T5')).toMatchInlineSnapshot(`
      "--set  trays.add
        found     T11 behind T5
        expected  a new unit and its place
        mend      write it like T11 in A after T5
      1 problem. Nothing was run."
    `);
    expect(say('trays.add', 'T5 in A last')).toMatchInlineSnapshot(`
      "--set  trays.add
        found     T5 a second time
        expected  a name of its own
        mend      give it another name
      1 problem. Nothing was run."
    `);
    expect(say('shelves.add', 'S9 on F3 in C last')).toMatchInlineSnapshot(`
      "--set  shelves.add
        found     section C
        expected  A or B
        mend      nearest: A, B
      1 problem. Nothing was run."
    `);
    expect(say('trays.count', '40')).toMatchInlineSnapshot(`
      "--set  trays.count
        found     40
        expected  a whole number from 0 to 16
        mend      the fill order names 16
      1 problem. Nothing was run."
    `);
    const unfilled = messageOf(
      [['models/reference-cabinet.yaml', '  fill: [K1, K2, K3 in A after S4, K4 in B after S8]\n', '']],
      { changes: [{ path: 'banks.count', value: '3' }] },
    );
    expect(unfilled).toMatchInlineSnapshot(`
      "--set  banks.count
        found     3
        expected  a cabinet that says in which order banks are fitted
        mend      add fill: [ … ] below banks in the cabinet file, in the order in which they are fitted
      1 problem. Nothing was run."
    `);
    expect(say('banks.move', 'K7 to A last')).toMatchInlineSnapshot(`
      "--set  banks.move
        found     K7
        expected  one of K1 or K2
        mend      nearest: K1, K2
      1 problem. Nothing was run."
    `);
  });
});
