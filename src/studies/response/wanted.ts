/** Which responses and loop gains are computed: what is driven, and what is read of the motion. */
import { type Complex, scaled } from '../../linear/complex.ts';
import { type Curves, type Drive, loopGain } from '../../linear/curves.ts';
import type { Places } from './places.ts';

export interface Wanted {
  readonly name: string;
  readonly unit: string;
  readonly drive: Drive;
  readonly value: (motion: ReturnType<Curves['at']>[number]) => Complex;
  /** What the loop is, where this is a loop gain. */
  readonly loop: string | null;
  readonly node: number | null;
}

/** How the rectifiers follow the load: what the trays smooth is seen in it. */
export const followed = 'load to rectifier current';

/** Where no rectifier shelf runs, what is theirs is left out; where one runs alone, its share. */
export function wantedOf(
  places: Places,
  nodes: readonly number[],
  names: readonly string[],
  nominal_V: number,
): Wanted[] {
  const { load, setPoints, unevenSetPoint, bulkReference, shelf } = places;
  const worst = nodes[0]!;
  const plain = (name: string, unit: string, drive: Drive, value: Wanted['value']): Wanted => ({
    name,
    unit,
    drive,
    value,
    loop: null,
    node: null,
  });
  const out: Wanted[] = [
    ...(places.runs
      ? [
          plain(followed, 'times nominal voltage, W/W', load, (m) =>
            scaled(m.read(places.rectifierCurrent), nominal_V),
          ),
          plain('load to AC power', 'W/W', load, (m) => m.read(places.acPower)),
        ]
      : []),
    plain(`set points to ${names[worst]}`, 'V/V', setPoints, (m) => m.read(places.voltage(worst))),
    ...(places.shares
      ? [
          plain(`set point of ${shelf} to its share`, 'of rated current per V', unevenSetPoint, (m) =>
            m.read(places.shareError),
          ),
        ]
      : []),
    ...nodes.map((node) => ({
      ...plain(`impedance at ${names[node]}`, 'Ω', places.current(node), (m) => m.read(places.voltage(node))),
      node,
    })),
    ...(places.runs
      ? [
          {
            ...plain(`power loop of ${shelf}`, '', bulkReference, (m) => {
              const back = m.read(places.bulk);
              return loopGain({ re: -back.re, im: -back.im });
            }),
            loop: 'opened at the sensed bulk voltage',
          },
        ]
      : []),
  ];
  return out;
}
