import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/engine/result.ts';
import type { RecordedSpan } from '../../src/events/spans.ts';
import { look } from '../../src/linear/look.ts';
import { restingPoints } from '../../src/linear/resting-points.ts';
import { resultOf } from '../analysis/fixture.ts';
import { edges, type Side } from '../fixtures/edges.ts';
import { readShipped } from '../scenario/shipped.ts';
import { shipped } from './scenario.ts';

const cabinet = 'models/reference-cabinet.yaml';

const span = (kind: RecordedSpan['kind'], who: string, from_s: number, to_s: number): RecordedSpan => ({
  kind,
  who,
  what: '',
  from_s,
  to_s,
  open: false,
  count: 1,
  held_s: to_s - from_s,
  amount: null,
  moved_to_s: from_s,
});

/** A record of one second at these loads, half a second each. */
function recordOf(first_W: number, second_W: number, spans: readonly RecordedSpan[] = []): Result {
  const load = Float64Array.from({ length: 100 }, (_, k) => (k < 50 ? first_W : second_W));
  const means = { width_s: 0.01, at_start: {}, from_s: 0, columns: new Map([['total.load_W', load]]) };
  return { ...resultOf(), status: 'ok', window: { from_s: 0, to_s: 1 }, means, spans };
}

const names = ['B1', 'B2', 'B3', 'B4', 'B5'];
const lost = [
  ...names.map((name) => span('carrying', name, 0, 1)),
  ...['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S7', 'S8'].map((name) => span('ac-lost', name, 0, 1)),
  span('ac-told-lost', 'AC', 0, 1),
];

describe('a look at the linear model', () => {
  describe.each(edges)(
    'at the edge by the $what',
    ({ scenario, load_W, held_by, owners, unstable, stable }) => {
      const worst = ({ words }: Side) => {
        const record = recordOf(load_W, load_W, held_by === 'batteries' ? lost : []);
        return look(shipped(scenario, ...words), record).worst!.mode!;
      };

      it('sees the mode that grows, its frequency and its owner', () => {
        const mode = worst(unstable);
        expect(mode.growth_per_s).toBeGreaterThan(0);
        expect(Math.abs(mode.frequency_Hz / unstable.frequency_Hz - 1)).toBeLessThan(0.02);
        expect(Math.abs(mode.damping_ratio - unstable.damping_ratio)).toBeLessThan(0.005);
        expect(mode.owners.slice(0, 3).some(({ name }) => owners.test(name))).toBe(true);
      });

      it('sees none beside it', () => {
        expect(worst(stable).damping_ratio).toBeGreaterThan(0.04);
      });
    },
  );

  it('calls a mode that neither grows nor decays drift', () => {
    // Frozen trays and discharging packs: their stores have modes within 1e-3 1/s of zero, on either side.
    const { worst, not_looked } = look(shipped('tray-assist'), recordOf(200e3, 200e3, lost));
    expect(not_looked).toEqual([]);
    expect(worst!.mode!.frequency_Hz).toBeGreaterThan(100);
    expect(worst!.mode!.damping_ratio).toBeGreaterThan(0.1);
  });

  it('takes a chain of bare places for the bar that it is', () => {
    // B2 and B3 at the far end of A, B5 at that of B, and the tie between: four bars in series.
    const chain = shipped('single-step', ...['B2', 'B3', 'B5'].map((name) => `batteries.${name}.fitted=no`));
    const one = readShipped('scenarios/single-step.yaml', [
      [cabinet, 'T5, B2, B3]', 'T5]'],
      [cabinet, 'T10, B5]', 'T10]'],
      [cabinet, 'units: [B1, B2, B3, B4, B5]', 'units: [B1, B4]'],
      [cabinet, 'fill: [B1, B4, B2, B5, B3, B6 in B after B5, B7 in A after B3]', 'fill: [B1, B4]'],
      // Three segments of 15 µΩ and 35 nH beside the tie's own 20 µΩ and 100 nH.
      [
        cabinet,
        'tie: { id: tie, closed: true }',
        'tie: { id: tie, closed: true, resistance: 65 µΩ, inductance: 205 nH }',
      ],
    ]).scenario;
    const [bare, plain] = [chain, one].map((scenario) => look(scenario, recordOf(200e3, 200e3)).worst!.mode!);
    expect(bare!.frequency_Hz / plain!.frequency_Hz).toBeCloseTo(1, 6);
    expect(bare!.damping_ratio).toBeCloseTo(plain!.damping_ratio, 6);
  });

  it('says what it cannot look at', () => {
    const beyond = look(shipped('single-step'), recordOf(400e3, 400e3));
    expect(beyond.worst).toBeNull();
    expect(beyond.not_looked[0]).toMatch(/^400.0 kW from 0.000 s: a start at 400.0 kW/);
    expect(look(shipped('single-step'), { ...recordOf(0, 0), status: 'collapsed' }).not_looked).toHaveLength(
      1,
    );
  });
});

describe('points at which a run rests', () => {
  it('are the highest and the lowest level of the load', () => {
    const points = restingPoints(shipped('single-step'), recordOf(100e3, 240e3));
    expect(points.map(({ load_W }) => load_W)).toEqual([240e3, 100e3]);
    expect(points[0]!.standing).toEqual({ carrying: [], stopped: [], isAcLost: false, events: [] });
  });

  it('are told apart by who holds the bus, and are none while a shelf walks in', () => {
    const spans = [
      ...names.map((name) => span('carrying', name, 0.5, 0.8)),
      span('ac-told-lost', 'AC', 0.5, 0.8),
      span('ac-lost', 'S1', 0.5, 0.7),
      span('walk-in', 'S1', 0.8, 1),
    ];
    const points = restingPoints(shipped('tray-assist'), recordOf(200e3, 200e3, spans));
    expect(points.map(({ standing: { carrying, stopped } }) => [carrying.length, ...stopped])).toEqual([
      [0],
      [5, 'S1'],
      [5],
    ]);
  });
});
