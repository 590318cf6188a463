/**
 * What nobody may take from a result of the tool: one text for terminal, reports, papers and pages. It names no rule of its
 * own: local codes and licensed practice decide. What the bus can do to people follows its nominal voltage.
 */

/** A paragraph, and what a terminal says of it. */
interface Caution {
  readonly full: string;
  readonly line: string;
}

/** What the numbers are. */
const scope: Caution = {
  full: 'A model-based estimate: averaged power stages (no switching ripple), lumped bars, stated assumptions and default parameters that no measurement has confirmed unless their source says so. It is not a safety certification. Verify by test before you rely on it.',
  line: 'An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.',
};

/**
 * What a touch and an arc of the bus do, by the highest nominal voltage that it is said of: 60 V, the ceiling of class ES1 on
 * direct current (IEC 62368-1); 120 V, that of extra-low voltage (IEC 60364-4-41, IEC 61140). Both from memory.
 */
const buses: readonly (Caution & { readonly upTo_V: number })[] = [
  {
    upTo_V: 60,
    full: 'A bus of at most 60 V is low in shock risk and not low in energy: a fault sustains kiloamperes, and a DC arc has no current zero at which it extinguishes.',
    line: 'Stored energy and kiloampere fault currents need licensed practice and the local codes.',
  },
  {
    upTo_V: 120,
    full: 'A bus above 60 V DC can give a dangerous shock: it lies beyond the ceiling of class ES1 (IEC 62368-1) and within extra-low voltage (120 V DC, IEC 60364), whose rules of separation and insulation it needs. A fault sustains high currents, and a DC arc has no current zero: it does not extinguish by itself.',
    line: 'Shock hazard above 60 V DC, stored energy and DC arcs: licensed practice and the local codes.',
  },
  {
    upTo_V: Number.POSITIVE_INFINITY,
    full: 'A bus above 120 V DC, the ceiling of extra-low voltage (IEC 60364), can kill by a touch: of both poles, or of one and earth. A fault arc burns and blinds at a distance (arc flash), and as direct current has no zero it does not extinguish by itself: contacts, plugs and fuses opened under load draw it out, and none may be opened that is not rated for DC at this voltage. Insulation, protective earthing, touch-proof covers and insulation monitoring are not modelled.',
    line: 'Lethal voltage: shock hazard, arc flash, and a DC arc that does not extinguish by itself. Licensed practice and the local codes.',
  },
];

/** What else the equipment can do to people, whatever its bus. */
const hazards: Caution = {
  full: "The tool does not compute arc flash, fuse clearing, short-circuit forces or bracing; never take protective-device ratings from its traces. Capacitor trays store megajoules and recover voltage after a discharge, bulk capacitors hold lethal voltage, batteries cannot be switched off completely. Work with several sources present requires lock-out of each, proof of absence of voltage, and qualified people; local electrical and fire codes, licensed practice and the makers' instructions come first.",
  line: '',
};

/** In full, a paragraph each, for cabinets of these nominal voltages: the highest of them decides. */
export function cautionsAt(...nominal_V: readonly number[]): readonly string[] {
  const most_V = Math.max(...nominal_V);
  const bus = buses.find(({ upTo_V }) => most_V <= upTo_V) ?? buses.at(-1)!;
  return [scope, bus, hazards].map(({ full }) => full);
}

/**
 * Of what a kept report holds the paragraphs that are the tool's own, for a page, which shows no text of a file as it stands;
 * those of the highest voltage where none is.
 */
export function ownCautions(kept: unknown): readonly string[] {
  const held: readonly unknown[] = Array.isArray(kept) ? kept : [];
  const own = [scope, ...buses, hazards].map(({ full }) => full).filter((full) => held.includes(full));
  return own.length > 0 ? own : cautionsAt(Number.POSITIVE_INFINITY);
}

/** In two lines, for a terminal, of the paragraphs that a report holds. */
export function cautionLines(cautions: readonly string[]): readonly string[] {
  return [scope, ...buses].filter(({ full }) => cautions.includes(full)).map(({ line }) => line);
}

/** In one line, beside a verdict: what a report's bus adds to it, where its voltage alone is a danger. */
export function shockLine(cautions: readonly string[]): string | null {
  return buses.slice(1).find(({ full }) => cautions.includes(full))?.line ?? null;
}

/** The end of a paper in Markdown. */
export function cautionsMarkdown(cautions: readonly string[]): string {
  return `\n## Scope and safety\n\n${cautions.join('\n\n')}\n`;
}
