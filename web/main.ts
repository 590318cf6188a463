/** The page: unpacks the run it carries and puts every part in its place. */
import { showCabinet } from './cabinet/draw.ts';
import { byId } from './dom.ts';
import { showEnvelope } from './envelope.ts';
import { showGrid } from './grid.ts';
import { listenToKeys } from './keys.ts';
import { makeLens } from './lens.ts';
import { openPage } from './opening.ts';
import { busPanel } from './panels/bus.ts';
import { carriersPanel } from './panels/carriers.ts';
import { acPanel, shelvesPanel, traysPanel } from './panels/groups.ts';
import { measuredPanels } from './panels/measured.ts';
import { rampsPanel } from './panels/ramps.ts';
import { showPapers } from './papers.ts';
import { makeRecord } from './record.ts';
import { makeRuler } from './ruler.ts';
import { showSpectrum } from './spectrum.ts';
import { startTheme } from './theme.ts';
import { unpack } from './unpack.ts';
import { showVerdict } from './verdict.ts';
import { showWhatIf } from './what-if/panel.ts';

async function start(): Promise<void> {
  const bundle = await unpack();
  const { report, result } = bundle;
  const record = makeRecord(result.recording);
  const lens = makeLens(record.edges_s[0] ?? 0, record.edges_s[record.bucketCount] ?? 0);
  byId('title').textContent = report.scenario.title;
  byId('about').textContent = report.scenario.about;
  document.title = `${report.scenario.title}: ${report.verdict.replaceAll('_', ' ')}`;
  showVerdict(byId('verdict'), lens, bundle);
  // A run that broke down at once has nothing to draw.
  if (record.bucketCount > 0) {
    makeRuler(byId('ruler'), lens, record, bundle);
    const traces = byId('traces');
    measuredPanels(traces, lens, record, bundle);
    busPanel(traces, lens, record, bundle);
    carriersPanel(traces, lens, record);
    acPanel(traces, lens, record, bundle);
    rampsPanel(traces, lens, record, bundle);
    traysPanel(traces, lens, record);
    shelvesPanel(traces, lens, record, bundle);
    showCabinet(byId('cabinet'), lens, record, bundle);
  }
  showSpectrum(byId('spectrum'), lens, bundle);
  showEnvelope(byId('envelope'), lens, bundle);
  showGrid(byId('grid'), bundle);
  showWhatIf(byId('what-if'), lens, record, bundle);
  showPapers(byId('papers'), lens, bundle);
  listenToKeys(
    lens,
    result.log.map(({ time_s }) => time_s),
  );
  startTheme(() => lens.refresh());
  addEventListener('resize', () => lens.refresh());
  lens.refresh();
}

openPage(start);
