/**
 * None: what a page runs is over before linking a kernel to its cabinet has paid, and every page would carry the text of it.
 * The functions for every cabinet give the same bits.
 */
import type { kernelTemplates as ofCommands } from '../../../../src/engine/fast/made/templates.ts';

export const kernelTemplates: typeof ofCommands = {};
