/** What is said of shock and arcs follows the voltage: 60 V DC (ES1, IEC 62368-1) and 120 V DC (IEC 60364), from memory. */
import { describe, expect, it } from 'vitest';
import { cautionLines, cautionsAt, ownCautions, shockLine } from '../../../src/analysis/words/cautions.ts';

const said = (nominal_V: number): string => cautionsAt(nominal_V).join(' ');

describe('cautions', () => {
  it.each([50, 60])('at %s V: low in shock, not in energy', (nominal_V) => {
    expect(said(nominal_V)).toContain('low in shock risk and not low in energy');
    expect(shockLine(cautionsAt(nominal_V))).toBeNull();
  });

  it.each([60.1, 110, 120])('at %s V: a dangerous shock within extra-low voltage', (nominal_V) => {
    expect(said(nominal_V)).toContain('dangerous shock');
    expect(said(nominal_V)).not.toContain('low in shock');
    expect(shockLine(cautionsAt(nominal_V))).toContain('Shock hazard above 60 V DC');
  });

  it.each([120.1, 400, 800])('at %s V: kills by a touch, arc flash, an arc that stays', (nominal_V) => {
    expect(said(nominal_V)).toContain('can kill by a touch');
    expect(said(nominal_V)).toContain('arc flash');
    expect(said(nominal_V)).toContain('does not extinguish by itself');
    expect(said(nominal_V)).not.toContain('low in shock');
    expect(cautionLines(cautionsAt(nominal_V))[1]).toContain('Lethal voltage');
  });

  it('of several cabinets the highest voltage decides', () => {
    expect(cautionsAt(50, 400)).toEqual(cautionsAt(400));
  });

  it('a page takes of a kept report the texts of the tool alone', () => {
    expect(ownCautions([...cautionsAt(50), '<b>harmless</b>'])).toEqual(cautionsAt(50));
    for (const kept of [undefined, ['<b>harmless</b>'], 'text'])
      expect(ownCautions(kept)).toEqual(cautionsAt(800));
  });
});
