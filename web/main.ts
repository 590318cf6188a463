/** The page: unpacks the run it carries and puts every part in its place. */

import { keepView, makeAddress } from './address.ts';
import { bindingOf } from './binding.ts';
import { showCabinet } from './cabinet/draw.ts';
import { showWarmth } from './cabinet/warmth.ts';
import { byId, html } from './dom.ts';
import { showEnvelope } from './envelope.ts';
import { showFindings } from './findings/list.ts';
import { showVerdict } from './first/verdict.ts';
import { showWord } from './first/word.ts';
import { makeFolding } from './fold.ts';
import { showGrid } from './grid.ts';
import { listenToKeys } from './keys.ts';
import { makeLens } from './lens.ts';
import { openPage } from './opening.ts';
import { bindPack } from './pack/pack.ts';
import { busPanel } from './panels/bus.ts';
import { carriersPanel } from './panels/carriers.ts';
import { acPanel, shelvesPanel, traysPanel } from './panels/groups.ts';
import { lineVoltagePanel } from './panels/line-voltage.ts';
import { measuredPanels } from './panels/measured.ts';
import { ownPanels } from './panels/own.ts';
import { rampsPanel } from './panels/ramps.ts';
import { showPapers } from './papers/papers.ts';
import { makeRecord } from './record.ts';
import { makeRuler } from './ruler.ts';
import { showSpectrum } from './spectrum.ts';
import { addMenu } from './taken/menu.ts';
import { allPlots } from './taken/plot.ts';
import { startTheme } from './theme.ts';
import { unpack } from './unpack.ts';
import { showWhatIf } from './what-if/panel.ts';

async function start(): Promise<void> {
  const verdict = byId('verdict');
  const bundle = await unpack((report) => showWord(verdict, report));
  const { report, result } = bundle;
  const record = makeRecord(result.recording);
  const lens = makeLens(record.edges_s[0] ?? 0, record.edges_s[record.bucketCount] ?? 0);
  showVerdict(verdict, lens, record, bundle);
  const traces = byId('traces');
  const findings = html('section', { id: 'findings', class: 'panel', 'aria-label': 'limits' });
  const more = html('section', { id: 'more-traces', 'aria-label': 'more traces' });
  traces.after(findings, more);
  showFindings(findings, lens, bundle);
  // A run that broke down at once has nothing to draw.
  if (record.bucketCount > 0) {
    makeRuler(byId('ruler'), lens, record, bundle);
    busPanel(traces, lens, record, bundle);
    carriersPanel(traces, lens, record, bundle);
    acPanel(traces, lens, record, bundle);
    lineVoltagePanel(more, lens, record, bundle);
    measuredPanels(more, lens, record, bundle);
    rampsPanel(more, lens, record, bundle);
    traysPanel(more, lens, record, bundle);
    shelvesPanel(more, lens, record, bundle);
    ownPanels(more, lens, record, bundle);
    showCabinet(byId('cabinet'), lens, record, bundle);
  }
  showWarmth(byId('warmth'), bundle);
  showSpectrum(byId('spectrum'), lens, bundle);
  showEnvelope(byId('envelope'), lens, bundle);
  showGrid(byId('grid'), bundle);
  showWhatIf(byId('what-if'), lens, record, bundle);
  showPapers(byId('papers'), lens, bundle);
  for (const plot of allPlots()) addMenu(plot, lens, report.scenario.id);
  bindPack(lens, record, bundle);
  listenToKeys(
    lens,
    result.log.map(({ time_s }) => time_s),
  );
  for (const section of document.querySelectorAll<HTMLElement>('#cabinet, #warmth, .pair > *, #grid, .paper'))
    if (section.childElementCount > 0) makeFolding(section);
  const address = makeAddress();
  startTheme(address, () => lens.refresh());
  keepView(address, lens, bindingOf(bundle).time_s);
  lens.refresh();
}

openPage(start);
