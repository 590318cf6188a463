/**
 * Energy audit of a cabinet that loses nothing: resistances of 1 nΩ where they are not needed for damping,
 * efficiencies of one, no standing, fixed or conduction losses, no leakage. What goes in is what comes out and is
 * stored: the residual, and the little that the remaining resistances lose, over the throughput (conservation of
 * energy). Tolerances: residual 1e-6; the loss left is that of the capacitors' own resistances under the ripple.
 */
import { expect, it } from 'vitest';
import { simulated } from '../engine/runs.ts';
import { published } from './published.ts';

const residual = published({
  what: 'energy audit of a cabinet without losses, residual over throughput',
  source: 'conservation of energy',
});

const nothing = {
  'shelves.dc_loss_fixed': '0 W',
  'shelves.dc_loss_linear': '0 V',
  'shelves.dc_loss_square': '0 Ω',
  'shelves.ac_loss_fixed': '0 W',
  'shelves.ac_loss_linear': '0 %',
  'shelves.ac_loss_square': '0 1/W',
  'trays.efficiency': '100 %',
  'trays.standing_loss': '0 W',
  'trays.esr': '1 nΩ',
  'trays.leakage': '0 A',
  'bars.segment.resistance': '1 nΩ',
  'bars.rack_segment.resistance': '1 nΩ',
  'bars.links.resistance': '1 nΩ',
  'bars.tie.resistance': '1 nΩ',
  'bars.contact.resistance': '1 nΩ',
};

it.each([
  ['idle', { duration: '0.2 s' }],
  ['pulse-train', { duration: '1.6 s' }],
] as const)('%s without losses closes its audit', (name, changes) => {
  const { audit, status } = simulated(name, { ...nothing, ...changes });
  // Over losses that are next to nothing any residual is large: the run may say so, and nothing worse.
  expect(['ok', 'audit_open']).toContain(status);
  const throughput = audit.input_J;
  expect(throughput).toBeGreaterThan(1e3);
  expect(audit.loss_J / throughput).toBeLessThan(1e-4);
  residual({ which: name, expected: 0, found: audit.residual_ratio, tolerance: 1e-6, scale: 1 });
});
