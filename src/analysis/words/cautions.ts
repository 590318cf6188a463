/**
 * What nobody may take from a result of the tool: one text for terminal, reports, papers and pages. It names no rule of its
 * own: local codes and licensed practice decide.
 */

/** What the numbers are. */
const scope =
  'A model-based estimate: averaged power stages (no switching ripple), lumped bars, stated assumptions and default parameters that no measurement has confirmed unless their source says so. It is not a safety certification. Verify by test before you rely on it.';

/** What the equipment can do to people. */
const hazards =
  "It does not compute arc flash, fuse clearing, short-circuit forces or bracing; never take protective-device ratings from its traces. A bus near 50 V is low in shock risk and not low in energy: a fault sustains kiloamperes, a DC arc has no current zero at which it extinguishes, capacitor trays store megajoules and recover voltage after a discharge, bulk capacitors hold lethal voltage, batteries cannot be switched off completely. Work with several sources present requires lock-out of each, proof of absence of voltage, and qualified people; local electrical and fire codes, licensed practice and the makers' instructions come first.";

/** In full, a paragraph each. */
export const cautions: readonly string[] = [scope, hazards];

/** In two lines, for a terminal. */
export const cautionLines: readonly string[] = [
  'An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.',
  'Stored energy and kiloampere fault currents need licensed practice and the local codes.',
];

/** The end of a paper in Markdown. */
export const cautionsMarkdown: string = `\n## Scope and safety\n\n${cautions.join('\n\n')}\n`;
