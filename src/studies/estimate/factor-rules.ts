/** Rules 11 and 12: spares, and the factors that are put on what was reckoned, each of them once. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { EstimateLine } from './line.ts';
import { J, kW, s } from './print.ts';
import type { LoadSwing } from './swing.ts';
import type { TrayFacts } from './tray-facts.ts';

/** Factors on what is bought. Common practice, no source; capacitance: the usual lower tolerance, on joules alone. */
export const factors = { energy: 1.25, power: 1.1, rms: 1.15, capacitance: 0.9, latency: 2 } as const;

const kinds = { energy: factors.energy / factors.capacitance, power: factors.power, rms: factors.rms };

/** What each kind of rule asks for at most, before rounding and with its factor. */
function byKind(
  lines: readonly EstimateLine[],
): { kind: keyof typeof kinds; asked: number; raised: number }[] {
  return (['energy', 'power', 'rms'] as const).flatMap((kind) => {
    const asked = Math.max(
      ...lines.flatMap(({ safety, trays }) => (safety === kind && trays !== null ? [trays] : [])),
    );
    return Number.isFinite(asked) ? [{ kind, asked, raised: asked * kinds[kind] }] : [];
  });
}

/** Trays with factors and one spare; null where nothing asks for trays. */
export function boughtTrays(lines: readonly EstimateLine[]): number | null {
  const raised = byKind(lines).map((one) => one.raised);
  return raised.length === 0 ? null : Math.ceil(Math.max(...raised) + 1);
}

/** Rule 11: one spare, and what a section has left that loses one. */
export function spareRules(
  { scenario }: ReadScenario,
  top: EstimateLine | null,
  tray: TrayFacts,
): readonly EstimateLine[] {
  if (top === null) {
    return [
      {
        rule: 11,
        title: 'Redundancy',
        about: '',
        formula: 'one more after all constraints',
        numbers: 'nothing required',
        asks: '',
        trays: null,
      },
    ];
  }
  const most = Math.ceil(top.trays!);
  const ids = new Set(scenario.trays.map(({ id }) => id));
  const sections = scenario.sections.filter(({ order }) => order.some((id) => ids.has(id)));
  const n = Math.max(1, sections.length);
  const share = top.trays! / n;
  const alone = Math.ceil(share) + 1;
  // The sections fill evenly; the smaller of them is the one that loses a tray.
  const left = Math.floor((most + 1) / n) - 1;
  const short = Math.max(0, share - left);
  return [
    {
      rule: 11,
      title: 'Redundancy',
      about: '',
      formula: 'one more after all constraints',
      numbers: `${most} + 1 = ${most + 1} trays`,
      asks: `${most + 1} trays, so that one may be out`,
      trays: null,
    },
    ...(sections.length < 2
      ? []
      : [
          {
            rule: 11,
            title: 'Redundancy of a section',
            about: '',
            formula: 'each section an even part; what its trays lack comes over tie and link bars',
            numbers: `${top.trays!.toFixed(2)}/${n} = ${share.toFixed(2)} a section; with one out ${left} left: ${short === 0 ? 'nothing' : kW(short * tray.power_W)} from the other`,
            asks: `${alone} a section (${alone * n} trays) only where a section must do without the other`,
            trays: null,
          },
        ]),
  ];
}

/** Rule 12: the factors, what each kind asks for with its own, and what that buys. */
export function factorRule(lines: readonly EstimateLine[], bought: number | null): EstimateLine {
  const { energy, power, rms, capacitance } = factors;
  const words = { energy: 'energy', power: 'power', rms: 'RMS' };
  const signs = { energy: `× ${energy}/${capacitance}`, power: `× ${power}`, rms: `× ${rms}` };
  const each = byKind(lines).map(
    ({ kind, asked, raised }) => `${words[kind]} ${asked.toFixed(2)} ${signs[kind]} = ${raised.toFixed(2)}`,
  );
  return {
    rule: 12,
    title: 'Safety factors',
    about: '',
    formula: `energy × ${energy} and capacitance × ${capacitance}, power × ${power}, RMS × ${rms}; each once`,
    numbers:
      bought === null
        ? 'nothing required'
        : `${each.join(', ')}; the largest and one spare, rounded up: ${bought}`,
    asks: bought === null ? '' : `${bought} trays to begin with (common practice, no source)`,
    trays: null,
  };
}

/**
 * Rule 12 for the latency: until the trays answer, T_ts/2 + T_m + τ_t, the whole swing comes from elsewhere. It asks
 * for no trays; the signal may be twice as late as it is said to be.
 */
export function latencyRule(
  about: string,
  { scenario }: ReadScenario,
  swing: LoadSwing,
  tray: TrayFacts,
): EstimateLine {
  const { period_s, latency_s } = scenario.firmware.smoothing;
  const dP = swing.high_W - swing.low_W;
  const once = period_s / 2 + latency_s + tray.values.power_lag_s;
  const late = once + (factors.latency - 1) * latency_s;
  return {
    rule: 12,
    title: 'Safety factor: latency',
    about,
    formula: `trays answer after T_ts/2 + T_m + τ_t, with T_m × ${factors.latency}; until then ΔP × t comes from shelves and bus`,
    numbers: `${s(once)} as it is, ${s(late)} with ${s(factors.latency * latency_s)} of latency: ${J(dP * once)} and ${J(dP * late)} of ${kW(dP)}`,
    asks: `no trays: energy does not cure it. Let the closing check pass with firmware.smoothing.latency = ${s(factors.latency * latency_s)} as well`,
    trays: null,
  };
}
