/**
 * Known mistakes of tuning, each of which must show: a simulator that stays calm under them models the wrong
 * thing. The edge is brought forward to 5 ms and the run cut to 0.1 s; nothing else is changed but the mistake.
 * Outcomes: from eigenvalues and runs of a separate model of the same cabinet; bounds leave a factor of three.
 */
import { describe, expect, it } from 'vitest';
import { busOf, type Changes, countOf, simulated, swingAfter } from './runs.ts';

const early: Changes = { 'load.at': '5 ms', duration: '100 ms' };

/** What still moves between 80 and 100 ms, 75 ms after the edge: the slow settling alone is about 6 mV. */
const calm_V = 0.02;
const late = 0.08;

describe('with one step of the whole load', () => {
  it('the reference tuning is calm again within 75 ms', () => {
    const result = simulated('single-step', early);
    expect(swingAfter(result, late)).toBeLessThan(calm_V);
    expect(countOf(result, 'battery-start')).toBe(0);
  });

  it("the trays' own power taken present against a late shelf signal makes the group oscillate", () => {
    const result = simulated('single-step', { ...early, 'firmware.smoothing.own_power': 'present' });
    expect(swingAfter(result, late)).toBeGreaterThan(0.5);
  });

  it('a control delay of 100 µs is unstable, 75 µs rings but settles', () => {
    const unstable = simulated('single-step', { ...early, 'shelves.control_delay': '100 us' });
    expect(swingAfter(unstable, late)).toBeGreaterThan(0.2);
    const ringing = simulated('single-step', { ...early, 'shelves.control_delay': '75 us' });
    expect(swingAfter(ringing, late)).toBeLessThan(calm_V);
  });

  it('output capacitors with a tenth of their resistance are unstable with the delay and calm without', () => {
    const thin: Changes = { ...early, 'shelves.output_esr': '0.1 mohm' };
    expect(swingAfter(simulated('single-step', thin), late)).toBeGreaterThan(0.2);
    const prompt = simulated('single-step', { ...thin, 'shelves.control_delay': '0 s' });
    expect(swingAfter(prompt, late)).toBeLessThan(calm_V);
  });

  it('a slew limit of 0.25 A/µs lets the bus swing by 10 V and more and wakes the batteries', () => {
    const result = simulated('single-step', { ...early, 'shelves.slew_limit': '0.25 A/us' });
    const { min, max } = busOf(result);
    expect(max - min).toBeGreaterThan(10);
    expect(countOf(result, 'battery-start')).toBe(5);
    // Half of the default still follows: the load asks 0.35 A/µs of each shelf.
    const half = simulated('single-step', { ...early, 'shelves.slew_limit': '0.5 A/us' });
    expect(busOf(half).min).toBeGreaterThan(48.5);
  });
});

describe('when AC is lost', () => {
  // The loss brought forward to 10 ms; the return stands at the end and does not happen.
  const loss: Changes = { 'events.1.at': '10 ms', 'events.2.at': '0.2 s', duration: '0.2 s' };

  it('batteries set to 48 V wait until the rectifiers are empty and the bus dips below 46 V', () => {
    const eager = busOf(simulated('ac-loss-and-return', loss));
    expect(eager.min).toBeGreaterThan(48.5);
    const late48 = simulated('ac-loss-and-return', {
      ...loss,
      'firmware.handover.set_point_on_loss': '48 V',
    });
    expect(busOf(late48).min).toBeLessThan(46);
    // Then they carry, near 47.3 V at the sleds: the voltage of a loaded sled at the end.
    const { channels, max, bucketCount } = late48.recording;
    const sled = channels.findIndex(({ id }) => id === 'sled-8.voltage_V');
    expect(Math.abs(max[sled]![bucketCount - 1]! - 47.3)).toBeLessThan(0.3);
  });
});
