/** Where the time of a piece of work goes, part by part of src: the sampling profiler's own count. */
import { type Profiler, Session } from 'node:inspector/promises';

/** Parts by the folder or file that their code stands in, first that fits. */
const parts: readonly (readonly [part: string, place: RegExp])[] = [
  ['compiled kernel', /^wasm:|engine\/fast\//],
  [
    'steps and ladder',
    /engine\/(cycle\/|(step|stepper|rung|ladder|advance|agenda|settle|cabinet|simulate)\.)/,
  ],
  ['device loops', /\/devices\//],
  ['firmware', /\/firmware\//],
  ['load', /\/loads\//],
  ['recording', /engine\/(record\/|gauge|look|watch|story|bounds)/],
  ['meters', /engine\/meters\//],
  ['judging', /\/(analysis|limits)\//],
];

/** Share of the time of `work` in each part; "other" is Node itself, garbage collection and what is between. */
export async function sharesOf(work: () => void): Promise<readonly (readonly [string, number])[]> {
  const session = new Session();
  session.connect();
  await session.post('Profiler.enable');
  await session.post('Profiler.setSamplingInterval', { interval: 500 });
  await session.post('Profiler.start');
  work();
  const { profile } = (await session.post('Profiler.stop')) as { profile: Profiler.Profile };
  session.disconnect();
  const count = new Map<string, number>();
  let all = 0;
  for (const { callFrame, hitCount = 0 } of profile.nodes) {
    const place = `${callFrame.url}${callFrame.functionName.startsWith('wasm') ? 'wasm:' : ''}`;
    const part = parts.find(([, pattern]) => pattern.test(place))?.[0] ?? 'other';
    count.set(part, (count.get(part) ?? 0) + hitCount);
    all += hitCount;
  }
  return [...count].map(([part, hits]) => [part, hits / all] as const).sort((a, b) => b[1] - a[1]);
}
