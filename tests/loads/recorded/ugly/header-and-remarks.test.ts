/** Names of columns, and the lines that are no samples: preambles, unit rows, comments, summaries. */
import { describe } from 'vitest';
import { file, iso, lines, readToTruth, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    [
      'a preamble, a unit row below the names, comments and markers among the rows',
      file(
        'Logger 7',
        'Serial;123;rev B',
        '',
        'Time;Power',
        's;W',
        '# armed',
        rows((t, p, k) => (k === 7 ? [`--- marker ---\n${t}`, p] : [t, p]), ';'),
      ),
    ],
    [
      'a row of units in brackets below the names',
      file(
        'Time;P1;P2',
        '[ms];[W];[W]',
        rows((t, p) => [1000 * t, p / 2, p / 2], ';'),
      ),
    ],
    [
      'lines about the instrument above, its words in another language',
      file(
        'Instrument: made up',
        'Serial: 1',
        'Index\tZeit (s)\tLeistung (W)',
        rows((t, p, k) => [k, t, p], '\t'),
      ),
    ],
    [
      'names behind a #, comments with // and %',
      file(
        '# t_s,power_W',
        '// bench 2',
        '% run 1',
        rows((t, p) => [t, p]),
      ),
    ],
    ['a header behind # over dates', `# time,power_W\n${lines((t, p) => `${iso(t)},${p}`)}`],
    [
      'comments of the same width above the header behind #',
      `# rev,7\n# serial,12\n# t_s,power_W\n${lines((t, p) => `${t},${p}`)}`,
    ],
    ['a # line before a plain header', `# made by bench 2\nt_s,power_W\n${lines((t, p) => `${t},${p}`)}`],
    [
      'a summary below the rows',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]),
        'Average,1200',
        'Max,1400',
      ),
    ],
  ]);
});
