/**
 * The cabinet at rest as a direct-current network: sources with droop, bars, constant powers. Solved here by
 * Kirchhoff's current law on the full matrix (ml-matrix) and Newton's method, from the scenario's own numbers; no
 * part of the engine's solver is used. Its shelves' trims and the trays' part are inputs: firmware, not network.
 * Tolerance 1e-6 of the currents, 1e-9 of the voltages (both solvers end far below).
 */
import { Matrix, solve } from 'ml-matrix';
import { describe, it } from 'vitest';
import { ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';
import { published } from './published.ts';

const source = "Kirchhoff's current law, full matrix";
const voltages = published({ what: 'two sections, tie, links and rack at rest, nodes', source, unit: 'V' });
const shelves = published({ what: 'two sections, tie, links and rack at rest, shelves', source, unit: 'A' });
const bars = published({ what: 'two sections, tie, links and rack at rest, bars', source, unit: 'A' });

describe('the cabinet at rest', () => {
  it.each([
    ['tie closed', '200 kW', {}],
    ['tie closed, little load', '31.2 kW', {}],
    ['tie of 1 Ω, as good as open', '200 kW', { 'bars.tie.resistance': '1 Ω' }],
  ])('%s, %s: has the voltages and currents of its own network', (name, power, changes) => {
    const scenario = shippedWith('idle', { 'load.power': power, ...changes });
    const { network, stepper, controls } = ready(assemble(scenario), makeDemand(scenario), 1);
    const { x0, v0 } = stepper;
    const n = network.nodeCount;
    const v = new Float64Array(n).fill(50);
    const total = scenario.load.kind === 'constant' ? scenario.load.power_W : Number.NaN;
    const powers: readonly (readonly [node: number, into_W: number])[] = [
      ...scenario.sleds.map(({ share_ratio }, k) => [network.sleds.node[k]!, -total * share_ratio] as const),
      ...scenario.trays.map((_, k) => [network.trays.node[k]!, x0[network.trays.offset + k]!] as const),
    ];
    const sources = scenario.shelves.map(({ values }, k) => ({
      node: network.stages.node[k]!,
      V: values.set_point_V * (1 + values.set_point_offset_ratio) + controls.share.trim_V[k]!,
      R: values.droop_ohm,
    }));
    const { from, to, resistance_ohm: R } = network.bars;
    for (let pass = 0; pass < 20; pass++) {
      const G = Matrix.zeros(n, n);
      const out = new Float64Array(n);
      const between = (a: number, b: number, S: number): void => {
        G.set(a, a, G.get(a, a) + S);
        G.set(b, b, G.get(b, b) + S);
        G.set(a, b, G.get(a, b) - S);
        G.set(b, a, G.get(b, a) - S);
        out[a]! += S * (v[a]! - v[b]!);
        out[b]! -= S * (v[a]! - v[b]!);
      };
      for (let k = 0; k < R.length; k++) between(from[k]!, to[k]!, 1 / R[k]!);
      for (const { node, V, R: droop } of sources) {
        G.set(node, node, G.get(node, node) + 1 / droop);
        out[node]! -= (V - v[node]!) / droop;
      }
      for (const [node, P] of powers) {
        G.set(node, node, G.get(node, node) + P / v[node]! ** 2);
        out[node]! -= P / v[node]!;
      }
      const dv = solve(G, Matrix.columnVector([...out])).to1DArray();
      for (let k = 0; k < n; k++) v[k]! -= dv[k]!;
    }
    for (let k = 0; k < n; k++) {
      voltages({
        which: `${name}, ${network.topology.nodes[k]}`,
        expected: v[k]!,
        found: v0[k]!,
        tolerance: 1e-9,
      });
    }
    for (const [k, { node, V, R: droop }] of sources.entries()) {
      shelves({
        which: `${name}, ${scenario.shelves[k]!.id}`,
        expected: (V - v[node]!) / droop,
        found: x0[network.stages.offset + k]!,
        tolerance: 1e-6,
      });
    }
    for (let k = 0; k < R.length; k++) {
      bars({
        which: `${name}, ${network.bars.names[k]}`,
        expected: (v[from[k]!]! - v[to[k]!]!) / R[k]!,
        found: x0[network.bars.offset + k]!,
        tolerance: 1e-6,
        scale: 1000,
      });
    }
  });
});
