/** Commands of studies as tests start them: many at a time, so that a second thread of each only loads everything once more. */
const studies = new Set([
  'designs',
  'duty',
  'fit',
  'gains',
  'matrix',
  'rating',
  'response',
  'share',
  'size',
  'spread',
]);

export function onOneThread(words: readonly string[]): readonly string[] {
  // A sample that is only named is carried out by nobody.
  const says = words.includes('--workers') || words.includes('--sample');
  return studies.has(words[0] ?? '') && !says ? [...words, '--workers', '1'] : words;
}
