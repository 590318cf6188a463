// A process that runs one command after another, so that what it has loaded and compiled serves the next. It reads orders as
// lines of JSON from one pipe and answers into another.
import { closeSync, openSync, readSync, writeSync } from 'node:fs';

const [asked, answered] = process.argv.slice(2);
const command = new URL('../../../dist/cli/buswake.js', import.meta.url).href;
const script = new URL('../../../scripts/buswake.mjs', import.meta.url).pathname;
const own = { out: process.stdout.write, err: process.stderr.write, exit: process.exit };

class Exit extends Error {
  constructor(code) {
    super('process.exit');
    this.code = code;
  }
}

/** What a command leaves on the process goes with it, as it would with its own process. */
function heardBefore() {
  const emitters = [process, process.stdout, process.stderr];
  const before = emitters.map(
    (one) => new Map(one.eventNames().map((name) => [name, new Set(one.rawListeners(name))])),
  );
  return () => {
    for (const leave of process.rawListeners('exit'))
      if (!before[0].get('exit')?.has(leave)) leave.call(process, process.exitCode ?? 0);
    emitters.forEach((one, k) => {
      for (const name of one.eventNames())
        for (const listener of one.rawListeners(name))
          if (!before[k].get(name)?.has(listener)) one.off(name, listener);
    });
  };
}

async function run({ words, cwd, count }) {
  const said = { out: [], err: [] };
  const into = (list) => (chunk, encoding, done) => {
    list.push(typeof chunk === 'string' ? chunk : Buffer.from(chunk).toString('utf8'));
    const after = typeof encoding === 'function' ? encoding : done;
    if (typeof after === 'function') queueMicrotask(after);
    return true;
  };
  const leave = heardBefore();
  process.chdir(cwd);
  process.argv = [process.execPath, script, ...words];
  process.exitCode = undefined;
  process.stdout.write = into(said.out);
  process.stderr.write = into(said.err);
  process.exit = (code) => {
    throw new Exit(code ?? process.exitCode ?? 0);
  };
  let status = null;
  try {
    const { done } = await import(`${command}?${count}`);
    await done;
    status = process.exitCode ?? 0;
  } catch (error) {
    if (error instanceof Exit) status = error.code;
    else {
      said.err.push(String(error?.stack ?? error));
      status = 1;
    }
  } finally {
    leave();
    process.stdout.write = own.out;
    process.stderr.write = own.err;
    process.exit = own.exit;
    process.exitCode = undefined;
  }
  return { status, stdout: said.out.join(''), stderr: said.err.join('') };
}

const orders = openSync(asked, 'r');
const answers = openSync(answered, 'w');
const buffer = Buffer.alloc(1 << 16);
let text = '';
for (let count = 0; ; ) {
  const end = text.indexOf('\n');
  if (end < 0) {
    const read = readSync(orders, buffer);
    if (read === 0) break;
    text += buffer.toString('utf8', 0, read);
    continue;
  }
  const order = JSON.parse(text.slice(0, end));
  text = text.slice(end + 1);
  count++;
  let line = Buffer.from(`${JSON.stringify(await run({ ...order, count }))}\n`);
  while (line.length > 0) line = line.subarray(writeSync(answers, line));
}
closeSync(answers);
