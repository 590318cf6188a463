import { explanationWords } from '../../studies/fit/explanation-words.ts';
import type { FitReport } from '../../studies/fit/fit-report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** Values with their intervals and profiles, channels with their curves and bands, and what would explain a misfit. */
export function fitTables(report: FitReport): readonly ExportTable[] {
  return [
    values(report),
    profiles(report),
    channels(report),
    curves(report),
    bands(report),
    explanations(report),
  ];
}

/** In the SI unit of each row. */
function values({ result }: FitReport): ExportTable {
  const { number, text, truth } = columnsFor(Object.entries(result));
  return listTable('values', [
    text('parameter', ([path]) => path),
    text('unit', ([, { unit }]) => unit),
    number('value', ([, { value }]) => value),
    number('interval_low', ([, { interval }]) => interval?.[0] ?? null),
    number('interval_high', ([, { interval }]) => interval?.[1] ?? null),
    number('linear_low', ([, one]) => one.linear_interval?.[0] ?? null),
    number('linear_high', ([, one]) => one.linear_interval?.[1] ?? null),
    number('start', ([, { start }]) => start),
    number('range_low', ([, { range }]) => range[0]),
    number('range_high', ([, { range }]) => range[1]),
    truth('at_end', ([, { at_end }]) => at_end),
  ]);
}

function profiles({ result }: FitReport): ExportTable {
  const rows = Object.entries(result).flatMap(([path, { unit, profile }]) =>
    profile.map((point) => ({ path, unit, ...point })),
  );
  const { number, text } = columnsFor(rows);
  return listTable('profiles', [
    text('parameter', ({ path }) => path),
    text('unit', ({ unit }) => unit),
    number('value', ({ value }) => value),
    number('root_of_growth', ({ t }) => t),
  ]);
}

/** In the unit that ends the name of each channel. */
function channels({ channels: all }: FitReport): ExportTable {
  const { number, text } = columnsFor(all);
  return listTable('channels', [
    text('channel', ({ channel }) => channel),
    number('samples', ({ samples }) => samples),
    number('noise', ({ noise }) => noise),
    number('rms_before', ({ rms_before }) => rms_before),
    number('rms_after', ({ rms_after }) => rms_after),
    number('gain_ratio', ({ scale }) => scale.gain_ratio),
    number('gain_low_ratio', ({ scale }) => scale.gain_interval?.[0] ?? null),
    number('gain_high_ratio', ({ scale }) => scale.gain_interval?.[1] ?? null),
    number('bias', ({ scale }) => scale.bias),
    number('bias_low', ({ scale }) => scale.bias_interval[0]),
    number('bias_high', ({ scale }) => scale.bias_interval[1]),
  ]);
}

function curves({ channels: all }: FitReport): ExportTable {
  const rows = all.flatMap(({ channel, laid }) =>
    laid.time_s.map((time_s, k) => ({
      channel,
      time_s,
      measured: laid.measured[k]!,
      before: laid.before[k] ?? null,
      after: laid.after[k] ?? null,
    })),
  );
  const { number, text } = columnsFor(rows);
  return listTable('curves', [
    text('channel', ({ channel }) => channel),
    number('time_s', ({ time_s }) => time_s),
    number('measured', ({ measured }) => measured),
    number('before', ({ before }) => before),
    number('after', ({ after }) => after),
  ]);
}

function bands({ channels: all }: FitReport): ExportTable {
  const { number, text } = columnsFor(
    all.flatMap(({ channel, bands: own }) => own.map((band) => ({ channel, ...band }))),
  );
  return listTable('bands', [
    text('channel', ({ channel }) => channel),
    number('low_Hz', ({ low_Hz }) => low_Hz),
    number('high_Hz', ({ high_Hz }) => high_Hz),
    number('rms_before', ({ rms_before }) => rms_before),
    number('rms_after', ({ rms_after }) => rms_after),
  ]);
}

function explanations({ would_explain }: FitReport): ExportTable {
  const { number, text } = columnsFor(would_explain);
  return listTable('explanations', [
    text('kind', ({ kind }) => kind),
    text('of', (one) => ('path' in one ? one.path : null)),
    number('explains_ratio', ({ explains_ratio }) => explains_ratio),
    text('words', (one) => explanationWords(one).clause),
  ]);
}
