/**
 * The scenario as the analysis reads it: the cabinet, its limits and who signed what. Not in it is what was planned to
 * happen: that is judged by what the run recorded (log, spans, what was not shown) alone.
 */
import type { Scenario } from '../../scenario/scenario.ts';

export type Stated = Omit<Scenario, 'events'>;
