/** One command killed at a moment of its life, what it left looked at, and the command said again. */
import { spawn } from 'node:child_process';
import type { Draw } from '../random-cabinets/draw.ts';
import { type Killable, script } from './commands.ts';

export interface Killed {
  /** How the killed process ended. */
  readonly ending: string;
  /** What is wrong with what it left, or with the end of the command that was said again. */
  readonly why: string | null;
}

const signals = ['SIGKILL', 'SIGINT', 'SIGTERM'] as const;

/** Ends of each command without a kill: what it leaves, and how long it takes [ms]. */
const undisturbed = new Map<Killable, { readonly sum: string; readonly took_ms: number }>();

export async function killed(command: Killable, root: string, draw: Draw): Promise<Killed> {
  const { sum, took_ms } = undisturbed.get(command) ?? (await withoutKill(command, root));
  undisturbed.set(command, { sum, took_ms });
  command.clear(root);
  const signal = draw.pick(signals);
  const ended = await ending(command.words(root), { signal, after_ms: draw.between(0.05, 1) * took_ms });
  const why = whatIsWrong(() => command.check(root));
  if (why !== null) return { ending: ended, why: `${signal}: ${why}` };
  await ending(command.again(root), null);
  const whole = whatIsWrong(() => {
    command.check(root);
    if (command.sum(root) !== sum) throw new Error('said again, it ends otherwise than undisturbed');
  });
  return { ending: ended, why: whole === null ? null : `${signal}, then ${whole}` };
}

async function withoutKill(command: Killable, root: string) {
  command.clear(root);
  const begun_ms = performance.now();
  await ending(command.words(root), null);
  return { sum: command.sum(root), took_ms: performance.now() - begun_ms };
}

/** Ends the command by itself, or by a signal. */
function ending(
  words: readonly string[],
  kill: { readonly signal: NodeJS.Signals; readonly after_ms: number } | null,
): Promise<string> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [script, ...words], { stdio: 'ignore' });
    const timer = kill === null ? null : setTimeout(() => child.kill(kill.signal), kill.after_ms);
    child.on('exit', (code, signal) => {
      if (timer !== null) clearTimeout(timer);
      resolve(signal ?? `code ${code}`);
    });
  });
}

function whatIsWrong(look: () => void): string | null {
  try {
    look();
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
