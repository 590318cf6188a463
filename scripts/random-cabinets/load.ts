/** A random load of any kind that a scenario can describe without a recording, scaled to the cabinet and the run. */
import type { ParameterSpec } from '../../src/scenario/parameter.ts';
import { syntheticLoads } from '../../src/scenario/synthetic-loads.ts';
import { type Draw, written, writtenTime } from './draw.ts';

type Fields = Readonly<Record<string, string>>;

/** `power_W`: the load's highest level; `length_s`: of the run. */
export function randomLoad(draw: Draw, power_W: number, length_s: number): string {
  const watts = (share: number): string => written((share * power_W) / 1e3, 'kW');
  const time = (): string => writtenTime(length_s * draw.between(0.05, 0.5));
  const edge = (): string => writtenTime(draw.acrossDecades(1e-4, length_s / 10));
  const plain: Readonly<Record<string, () => Fields>> = {
    constant: () => ({ power: watts(1) }),
    step: () => ({ before: watts(draw.between(0, 1)), after: watts(1), at: time(), edge: edge() }),
    'pulse-train': () => ({
      low: watts(draw.between(0, 0.8)),
      high: watts(1),
      period: time(),
      duty: written(draw.between(0.2, 0.8), ''),
      edge: edge(),
      ...(draw.chance(0.3) ? { scatter: edge() } : {}),
    }),
  };
  const ofSpec = (key: string, spec: ParameterSpec): string => {
    switch (spec.dimension) {
      case 'power':
        return watts(key === 'low' ? draw.between(0, 0.5) : key === 'high' || key === 'power' ? 1 : 0.6);
      case 'time':
        return ['edge', 'rise', 'fall'].includes(key) ? edge() : time();
      case 'frequency':
        return written(draw.between(2, 20) / length_s, 'Hz');
      case 'count':
        return String(Math.max(spec.min, draw.whole(1, 5)));
      default:
        return written(draw.between(0, 1), '');
    }
  };
  const kind = draw.pick([...Object.keys(plain), ...Object.keys(syntheticLoads)]);
  const specs: Readonly<Record<string, ParameterSpec>> = Object.hasOwn(syntheticLoads, kind)
    ? syntheticLoads[kind as keyof typeof syntheticLoads]
    : {};
  const given = Object.entries(specs).filter(([, spec]) => spec.fallback === undefined || draw.chance(0.3));
  const fields = plain[kind]?.() ?? Object.fromEntries(given.map(([key, spec]) => [key, ofSpec(key, spec)]));
  return `{ ${[['kind', kind], ...Object.entries(fields)].map(([key, text]) => `${key}: ${text}`).join(', ')} }`;
}
