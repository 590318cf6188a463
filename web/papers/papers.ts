/** What goes with the picture: metrics, responses to steps, protection, what polls saw, inputs, changes, energy audit, engine, log. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { Lens } from '../lens.ts';
import { energy } from './energy.ts';
import { engine } from './engine.ts';
import { inputs } from './inputs.ts';
import { log } from './log.ts';
import { metrics } from './metrics.ts';
import { monitoring } from './monitoring.ts';
import { protection } from './protection.ts';
import { responses } from './responses.ts';

export function showPapers(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  host.append(
    metrics(bundle),
    inputs(bundle),
    energy(bundle),
    engine(bundle),
    responses(bundle),
    ...protection(bundle),
    ...monitoring(bundle),
    log(lens, bundle),
  );
}
