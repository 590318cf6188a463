/** What each key of a study's file means. */
export const studyWordMeanings: Readonly<Record<string, string>> = {
  least: 'which of two axes is made least first',
  objectives: 'one or two of cost, mass, rack_units, losses, headroom and yield, separated by commas',
  from: 'smallest scale',
  to: 'largest scale',
  within: 'how close the answer is',
  duty: 'duties of the curve, separated by commas',
  period: 'periods of the curve, separated by commas',
  pairs: 'yes: every two of the faults at once as well',
  moments: 'how many moments of the cycle each fault is tried at, before the worst is searched',
  samples: 'how many samples are drawn',
  seed: 'seed of the draws',
  sampling: 'latin-hypercube or plain',
  half_width: 'half width of the interval at which it may stop early',
  of: 'what the sensitivity is of',
  models: 'whether tolerances of the models are drawn too',
  rare: 'how many runs in all for a small probability of failing',
};

/** Keys that hold more than a word. */
export const studySectionMeanings: Readonly<Record<string, string>> = {
  study: 'kind of study',
  title: 'one line that says what is studied',
  about: 'what else is to be known',
  scenario: 'the scenario that everything starts from',
  changes: 'changes made in every trial',
  vary: 'what is varied, least first: a path with its values, or a name with designs',
  figures: 'what a unit of a kind costs, weighs and takes up, each with its source',
  cases: 'loads or events that all must pass',
  corners: 'states of the cabinet that all must pass',
  redundancy: 'what is out of service, each of which must pass',
  levers: 'changes that may help, tried one by one',
  faults: 'what fails, by name',
  every_fault: 'one fault of each kind of event',
  scale: 'paths that are scaled',
  tolerances: 'how each value is distributed, by path',
};
