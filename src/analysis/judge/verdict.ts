/** From findings and basis to one verdict and one sentence. */
import type { Status } from '../../engine/result.ts';
import { stated } from '../statement/state.ts';
import { limitName } from '../words/limit-name.ts';
import { namedFew } from '../words/named-few.ts';
import { headroomText, pairText } from '../words/pair-text.ts';
import { limitsNamed, openLimits } from './open-limits.ts';
import type { Finding, Report, Verdict } from './report.ts';

/** What a verdict is formed from. `collapse` is not waivable: a waiver is of a limit. A supply's collapse leads the words alone. */
export type Grounds = Pick<
  Report,
  'status' | 'failure' | 'collapse' | 'supply_collapse' | 'findings' | 'basis'
>;

/**
 * By precedence: `inconclusive` where the numbers failed, whatever else happened, and where the run was stopped;
 * `fail` where the cabinet collapsed, whatever is waived, or a limit fails; `inconclusive` where none could be judged,
 * waived or not; `pass_with_conditions` where one is inconclusive, waived or within the doubt, or where the basis holds
 * a condition; `pass`. What is not applicable conditions nothing.
 */
export function verdictOf({
  status,
  collapse,
  findings,
  basis,
}: Omit<Grounds, 'failure' | 'supply_collapse'>): Verdict {
  const has = (verdict: Finding['verdict']): boolean => findings.some((f) => f.verdict === verdict);
  if (status === 'non_finite' || status === 'audit_open') return 'inconclusive';
  // What was seen up to where it was stopped says nothing about the rest.
  if (status === 'stopped') return 'inconclusive';
  if (status === 'collapsed' || collapse !== null || has('fail')) return 'fail';
  // Who waives what could not be judged has not made it a judgement.
  if (!(has('pass') || findings.some((f) => f.waived_from === 'fail'))) return 'inconclusive';
  const open = openLimits(findings).length > 0;
  return open || basis.some(({ conditions }) => conditions) ? 'pass_with_conditions' : 'pass';
}

const opening: Readonly<Record<Verdict, string>> = {
  pass: 'Passes',
  pass_with_conditions: 'Passes with conditions',
  fail: 'Fails',
  inconclusive: 'Inconclusive',
};

/** The report with its verdict, its sentence and its answer to a specification; `findings` stand binding first. */
export function concluded<R extends Grounds & Pick<Report, 'statement'>>(
  report: R,
): R & Pick<Report, 'verdict' | 'summary'> {
  const verdict = verdictOf(report);
  const summary = `${opening[verdict]}: ${because(report, verdict)}.`;
  const { statement } = report;
  return {
    ...report,
    ...(statement === undefined ? {} : { statement: stated(statement, report) }),
    verdict,
    summary,
  };
}

/** What decides, then what conditions it. */
function because(grounds: Grounds, verdict: Verdict): string {
  const { status, failure, collapse, supply_collapse, findings } = grounds;
  if (status === 'non_finite' || status === 'audit_open') {
    const also = collapse === null ? '' : `; also ${collapse}`;
    return `${statusWords[status]}${failure === null ? '' : `: ${failure}`}${also}`;
  }
  if (verdict === 'fail' && collapse !== null) return collapse;
  if (status !== 'ok') return failure ?? statusWords[status];
  const fails = findings.filter((f) => f.verdict === 'fail').length;
  const binding = findings.find((f) => f.verdict === 'fail' || f.verdict === 'pass');
  const bound = binding === undefined ? 'no limit could be judged' : bindingWords(binding);
  const others =
    fails > 1 ? `, and ${fails - 1} more ${fails === 2 ? 'exceeds its limit' : 'exceed their limits'}` : '';
  const lost = supply_collapse === null ? [] : [supply_collapse];
  return [...lost, `${bound}${others}`, ...conditionWords(grounds, verdict)].join('; ');
}

const statusWords: Readonly<Record<Status, string>> = {
  ok: 'the run reached its end',
  collapsed: 'the bus collapsed',
  non_finite: 'numerical failure, the run left the finite numbers',
  audit_open: 'numerical failure, the energy audit is open',
  stopped: 'the run was stopped before its end',
};

/** Statements of the basis named in the headline. */
const statementsNamed = 2;

/** Conditions by name: a few of each kind, then how many more. What a fail rests on stands in its basis alone. */
function conditionWords({ findings, basis }: Grounds, verdict: Verdict): string[] {
  const stated = basis
    .filter(({ kind, conditions }) => verdict !== 'fail' && conditions && kind !== 'waived')
    .map(({ what }) => what.replace(/\.$/, ''));
  return [
    ...openLimits(findings).map(
      ({ word, limits }) => `${word}: ${namedFew(limits.map(limitName), limitsNamed)}`,
    ),
    ...(stated.length === 0 ? [] : [`on condition: ${namedFew(stated, statementsNamed, '; ')}`]),
  ];
}

/** The limit by its title: what must hold, where, how far it is. */
function bindingWords(f: Finding): string {
  const where = f.node === null ? '' : ` at ${f.node}`;
  const [value, limit] = pairText(f);
  const against = value === '' || limit === '' ? '' : `, ${value} against ${limit}`;
  // A finding does not know its side; a value that fails below its limit fell short of a lower one.
  const under = f.value !== null && f.limit !== null && f.value < f.limit;
  const verb = f.verdict === 'fail' ? (under ? 'is not met' : 'is exceeded') : 'comes closest';
  return `${f.title} ${verb}${where}${against}${f.verdict === 'fail' ? '' : room(f)}`;
}

function room({ headroom_ratio }: Finding): string {
  if (headroom_ratio === null) return '';
  return headroom_ratio === 0 ? ', at the limit' : `, headroom ${headroomText(headroom_ratio)}`;
}
