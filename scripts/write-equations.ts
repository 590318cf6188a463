/** Fills the tables of src/EQUATIONS.md: check numbers from the engine, keys from the parameter tables. */
import { readFileSync, writeFileSync } from 'node:fs';
import { suffixOf } from '../src/base/quantity.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { advance } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import { converge } from '../src/engine/cycle/converge.ts';
import { firmwareAgenda } from '../src/engine/firmware-agenda.ts';
import { putEvents } from '../src/engine/happen/put-events.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import type { ParameterSpec } from '../src/scenario/parameter.ts';
import { bankParameters } from '../src/scenario/parameters/bank.ts';
import { barParameters } from '../src/scenario/parameters/bar.ts';
import { batteryParameters } from '../src/scenario/parameters/battery.ts';
import { brakeParameters } from '../src/scenario/parameters/brake.ts';
import { feederParameters } from '../src/scenario/parameters/feeder.ts';
import { handoverParameters } from '../src/scenario/parameters/handover.ts';
import { nodeParameters } from '../src/scenario/parameters/node.ts';
import { shareParameters } from '../src/scenario/parameters/share.ts';
import { shelfParameters } from '../src/scenario/parameters/shelf.ts';
import { sledParameters } from '../src/scenario/parameters/sled.ts';
import { smoothingParameters } from '../src/scenario/parameters/smoothing.ts';
import { supervisorParameters } from '../src/scenario/parameters/supervisor.ts';
import { trayParameters } from '../src/scenario/parameters/tray.ts';
import { readScenario } from '../src/scenario/read.ts';
import { fill } from './between-marks.ts';

export const tables: Readonly<Record<string, Readonly<Record<string, ParameterSpec>>>> = {
  shelf: shelfParameters,
  tray: trayParameters,
  bank: bankParameters,
  battery: batteryParameters,
  sled: sledParameters,
  bar: barParameters,
  rack_node: nodeParameters,
  feeder: feederParameters,
  share: shareParameters,
  smoothing: smoothingParameters,
  handover: handoverParameters,
  supervisor: supervisorParameters,
  brake: brakeParameters,
};

function keys(): string {
  return Object.entries(tables)
    .map(([kind, table]) => {
      const rows = Object.entries(table).map(
        ([key, spec]) =>
          `| \`${key}\` | ${spec.symbol} | ${suffixOf[spec.dimension]} | ${spec.fallback ?? 'given'} | ${spec.means} |`,
      );
      return `**${kind}**\n\n| key | symbol | unit | default | means |\n|---|---|---|---|---|\n${rows.join('\n')}`;
    })
    .join('\n\n');
}

const nodesShown = ['A.S1', 'A.K1', 'B.T10', 'rack.8', 'sled-10'];

/** All rungs of the ladder divided by this. */
const refine = 4;

/** Voltages, currents, powers and slow states of a scenario at a few instants. */
function numbers(name: string, times_s: readonly number[]): string {
  const { scenario } = readScenario(`scenarios/${name}.yaml`, { files: readTextFile });
  const cabinet = ready(assemble(scenario), makeDemand(scenario), refine);
  const { network, stepper, controls, demand } = cabinet;
  if (scenario.start === 'converged-cycle') converge(cabinet, demand.period_ticks!);
  const agenda = firmwareAgenda(cabinet, 0);
  putEvents(cabinet, agenda);
  const { trays, stages, topology } = network;
  const rows: string[] = [];
  let tick = 0;
  for (const time_s of times_s) {
    const to = Math.round(time_s / scenario.tick_s);
    advance(cabinet, agenda, tick, to, null);
    tick = to;
    const x = stepper.x0;
    const cells = [
      ...nodesShown.map((id) => stepper.v0[topology.nodes.indexOf(id)]!.toFixed(4)),
      x[stages.offset]!.toFixed(2),
      x[trays.offset]!.toFixed(1),
      x[trays.offset + trays.count]!.toFixed(6),
      controls.smoothing.smoothed_W.toFixed(1),
    ];
    rows.push(`| ${name} | ${time_s} | ${cells.join(' | ')} |`);
  }
  return rows.join('\n');
}

function checkNumbers(): string {
  const head = `| scenario | t s | ${nodesShown.map((n) => `${n} V`).join(' | ')} | S1 A | T1 W | T1 v_c V | w W |`;
  return [
    head,
    `|${'---|'.repeat(nodesShown.length + 6)}`,
    numbers('single-step', [0, 0.1005, 0.101, 0.1015, 0.102, 0.105, 0.11]),
    numbers('shelf-trip', [0, 0.0995, 0.1002, 0.1005, 0.101, 0.103, 0.11, 0.15, 0.2]),
    numbers('pulse-train', [0, 0.3, 0.4775, 0.48, 0.485, 0.5, 1, 1.595, 1.6]),
  ].join('\n');
}

/** The document with its tables as the code has them now. */
export function equations(): string {
  const text = readFileSync('src/EQUATIONS.md', 'utf8');
  return fill(fill(text, 'check numbers', checkNumbers()), 'keys', keys());
}

if (import.meta.url === `file://${process.argv[1]}`) {
  writeFileSync('src/EQUATIONS.md', equations());
  console.log(checkNumbers());
}
