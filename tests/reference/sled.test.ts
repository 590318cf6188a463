/**
 * A constant power seen from its terminals: dI/dV = −P/V², so dI/I = −dV/V (differential of I = P/V). The slope is
 * taken from the sled's own current by central differences of 1 mV, whose error is (1e-3/V)² = 4e-10.
 */
import { it } from 'vitest';
import { ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';
import { published } from './published.ts';

const slopes = published({
  what: 'slope of a constant-power load, −P/V²',
  source: 'differential of P/V',
  unit: 'S',
});

it.each([
  [15e3, 50],
  [15e3, 48],
  [1950, 51],
])('a sled of %d W at %d V', (P, V) => {
  const scenario = shippedWith('idle');
  const { sleds } = ready(assemble(scenario), makeDemand(scenario), 1).network;
  const h = 1e-3;
  const found = (sleds.drawn_A(0, P, V + h) - sleds.drawn_A(0, P, V - h)) / (2 * h);
  slopes({ which: `${P} W at ${V} V`, expected: -P / (V * V), found, tolerance: 1e-8 });
});
