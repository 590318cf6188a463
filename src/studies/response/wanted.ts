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
  /** Of a loop that is opened at sampled commands. */
  readonly half_sampling_Hz: number | null;
  readonly node: number | null;
}

export function wantedOf(
  places: Places,
  nodes: readonly number[],
  names: readonly string[],
  nominal_V: number,
): Wanted[] {
  const { load, setPoints, unevenSetPoint, trayCommands, bulkReference, shelf } = places;
  const worst = nodes[0]!;
  const plain = (name: string, unit: string, drive: Drive, value: Wanted['value']): Wanted => ({
    name,
    unit,
    drive,
    value,
    loop: null,
    half_sampling_Hz: null,
    node: null,
  });
  const out: Wanted[] = [
    plain('load to rectifier current', 'times nominal voltage, W/W', load, (m) =>
      scaled(m.read(places.rectifierCurrent), nominal_V),
    ),
    plain('load to AC power', 'W/W', load, (m) => m.read(places.acPower)),
    plain(`set points to ${names[worst]}`, 'V/V', setPoints, (m) => m.read(places.voltage(worst))),
    plain(`set point of ${shelf} to its share`, 'of rated current per V', unevenSetPoint, (m) =>
      m.read(places.shareError),
    ),
    ...nodes.map((node) => ({
      ...plain(`impedance at ${names[node]}`, 'Ω', places.current(node), (m) => m.read(places.voltage(node))),
      node,
    })),
    {
      ...plain(`power loop of ${shelf}`, '', bulkReference, (m) => {
        const back = m.read(places.bulk);
        return loopGain({ re: -back.re, im: -back.im });
      }),
      loop: 'opened at the sensed bulk voltage',
    },
  ];
  const own = places.setPoint.findIndex(({ name }) => name.endsWith(` ${shelf}`));
  const volt = 0.1;
  if (places.trims.length > 1) {
    out.push({
      ...plain(`share loop of ${shelf}`, '', unevenSetPoint, (m) => {
        // What the trims answer along the drive's own pattern, per volt put in.
        const pattern = unevenSetPoint.weights.map(({ weight }) => weight);
        const square = pattern.reduce((sum, w) => sum + w * w, 0);
        let [re, im] = [0, 0];
        places.trims.forEach((at, k) => {
          const u = m.command(at);
          re += (pattern[k]! * u.re * volt) / square;
          im += (pattern[k]! * u.im * volt) / square;
        });
        return loopGain({ re, im });
      }),
      loop: `opened at the trims, ${shelf} against the others${own < 0 ? '' : ', sampling and latency included'}`,
      half_sampling_Hz: places.halfSampling_Hz('share'),
    });
  }
  if (places.trays.length > 0) {
    const watt = 5e3;
    out.push({
      ...plain('smoothing loop', '', trayCommands, (m) => {
        let [re, im] = [0, 0];
        for (const at of places.trays) {
          const u = m.command(at);
          re += (u.re * watt) / places.trays.length;
          im += (u.im * watt) / places.trays.length;
        }
        return loopGain({ re, im });
      }),
      loop: 'opened at the tray commands, all trays together, sampling and latency included',
      half_sampling_Hz: places.halfSampling_Hz('smoothing'),
    });
  }
  return out;
}
