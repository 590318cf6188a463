/** From findings to one verdict and one sentence. */
import type { Status } from '../engine/result.ts';
import { numberText } from './number-text.ts';
import type { Finding, Verdict } from './report.ts';

/**
 * By precedence: `fail` when any limit fails or the bus collapsed; `inconclusive` when the run cannot be
 * trusted or no limit could be judged; `pass_with_conditions` when some could not be assessed or were waived,
 * or a reviewer states conditions; `pass`. What is not applicable conditions nothing.
 */
export function verdictOf(
  status: Status,
  findings: readonly Pick<Finding, 'verdict'>[],
  conditions: readonly string[] = [],
): Verdict {
  const has = (verdict: Finding['verdict']): boolean => findings.some((f) => f.verdict === verdict);
  if (status === 'collapsed') return 'fail';
  if (status === 'non_finite' || status === 'audit_open') return 'inconclusive';
  if (has('fail')) return 'fail';
  // A run that was stopped has shown no failure up to there, and nothing about the rest.
  if (status === 'stopped' || !(has('pass') || has('waived'))) return 'inconclusive';
  const open = has('inconclusive') || has('waived') || conditions.length > 0;
  return open ? 'pass_with_conditions' : 'pass';
}

const opening: Readonly<Record<Verdict, string>> = {
  pass: 'Passes',
  pass_with_conditions: 'Passes with conditions',
  fail: 'Fails',
  inconclusive: 'Cannot be judged',
};

/** One sentence: the verdict, the limit that binds and by how much. `findings` stand binding first. */
export function summaryOf(
  status: Status,
  failure: string | null,
  verdict: Verdict,
  findings: readonly Finding[],
): string {
  if (status === 'audit_open' && failure !== null)
    return `${opening[verdict]}: ${statusWords[status]}; ${failure}.`;
  if (status !== 'ok') return `${opening[verdict]}: ${failure ?? statusWords[status]}.`;
  const count = (kind: Finding['verdict']): number => findings.filter((f) => f.verdict === kind).length;
  const fails = count('fail');
  const binding = findings.find((f) => f.verdict === 'fail' || f.verdict === 'pass');
  const bound = binding === undefined ? 'no limit could be judged' : bindingWords(binding);
  const others = fails > 1 ? `, and ${fails - 1} more beyond their limits` : '';
  const asides = [aside(count('waived'), 'waived'), aside(count('inconclusive'), 'inconclusive')];
  return `${opening[verdict]}: ${[`${bound}${others}`, ...asides].filter((part) => part !== '').join('; ')}.`;
}

function aside(count: number, what: string): string {
  return count === 0 ? '' : `${count} ${count === 1 ? 'limit' : 'limits'} ${what}`;
}

const statusWords: Readonly<Record<Status, string>> = {
  ok: 'the run reached its end',
  collapsed: 'the bus collapsed',
  non_finite: 'the run left the finite numbers',
  audit_open: 'the energy audit does not close',
  stopped: 'the run was stopped before its end',
};

/** The limit by its title: what must hold, where, how far it is. */
function bindingWords(f: Finding): string {
  const where = f.node === null ? '' : ` at ${f.node}`;
  const value =
    f.value === null || f.limit === null
      ? ''
      : `, ${numberText(f.value, f.unit)} against ${numberText(f.limit, f.unit)}`;
  return f.verdict === 'fail'
    ? `${f.title} is broken${where}${value}`
    : `${f.title} comes closest${where}${value}${room(f)}`;
}

function room(f: Finding): string {
  return f.headroom_ratio === null
    ? ''
    : `, ${(100 * f.headroom_ratio).toFixed(0)} % of the allowed deviation left`;
}
