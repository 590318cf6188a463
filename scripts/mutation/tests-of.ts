/** The tests that should notice a change of a part of src. */
export interface TestsOf {
  readonly part: string;
  /** Whether the compiled kernel has this part: every change is built anew. */
  readonly builds: boolean;
  /** Quick ones first: later stages run where earlier ones pass. */
  readonly stages: readonly (readonly string[])[];
}

const known: readonly TestsOf[] = [
  {
    part: 'src/devices',
    builds: true,
    stages: [
      ['tests/devices', 'engine/books', 'engine/settle', 'engine/bulk', 'linear/step-map', 'reference/rlc'],
      ['engine/shelves.test', 'engine/audit', 'reference/line-ripple', 'reference/supercapacitor'],
      ['engine/storage-agree', 'engine/agreement', 'reference/battery', 'reference/sled', 'engine/outcomes'],
    ],
  },
  {
    part: 'src/firmware',
    builds: false,
    stages: [
      ['firmware/battery', 'firmware/shelf', 'firmware/signal', 'firmware/site'],
      ['engine/shelves.test', 'engine/outcomes', 'reference/smoothing'],
      ['engine/signals', 'engine/spans', 'tests/faults/faults'],
      ['engine/sleds.test', 'engine/battery.test'],
    ],
  },
  {
    part: 'src/analysis/judge',
    builds: false,
    stages: [['analysis/judge'], ['tests/analysis', 'cli/terminal']],
  },
  {
    part: 'src/linear',
    builds: false,
    stages: [['tests/linear'], ['tests/studies/gains', 'tests/studies/response']],
  },
  { part: 'src/limits', builds: false, stages: [['tests/limits'], ['tests/analysis', 'tests/data']] },
];

export function testsOf(part: string): TestsOf {
  const found = known.find((one) => part.startsWith(one.part));
  if (found === undefined) throw new Error(`no tests are named for ${part}`);
  return found;
}
