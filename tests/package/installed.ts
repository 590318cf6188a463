/** The package as npm packs it, installed into an empty folder by a user who may write nowhere else. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeTypes } from '../../scripts/library.ts';

/** The user `nobody` of most systems, where the test runs as root; else whoever runs it. */
const nobody = 65534;
const as = process.getuid?.() === 0 ? { uid: nobody, gid: nobody } : {};

export interface Installed {
  /** The folder of the user's project. */
  readonly folder: string;
  /** Packages in its node_modules. */
  readonly packages: readonly string[];
  write(name: string, text: string): void;
  /** Runs a program in it. */
  does(program: string, ...words: readonly string[]): Done;
  remove(): void;
}

export interface Done {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Packs what was built, and installs it. */
export async function installed(): Promise<Installed> {
  const folder = mkdtempSync(join(tmpdir(), 'buswake-installed-'));
  chmodSync(folder, 0o755);
  await writeTypes('dist/library');
  const npm = (...words: readonly string[]): string => execFileSync('npm', words, { encoding: 'utf8' });
  npm('pack', '--ignore-scripts', '--silent', '--pack-destination', folder);
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'))!;
  writeFileSync(join(folder, 'package.json'), '{ "name": "mine", "version": "1.0.0", "type": "module" }\n');
  const environment = {
    PATH: process.env['PATH'],
    HOME: folder,
    NO_COLOR: '1',
    npm_config_registry: npm('config', 'get', 'registry').trim(),
    npm_config_cache: join(folder, '.npm'),
  };
  const own = (path: string): void => {
    if (as.uid !== undefined) chownSync(path, nobody, nobody);
  };
  for (const path of [folder, join(folder, tarball), join(folder, 'package.json')]) own(path);
  const does = (program: string, ...words: readonly string[]): Done => {
    const { status, stdout, stderr } = spawnSync(program, words, {
      cwd: folder,
      env: environment,
      encoding: 'utf8',
      maxBuffer: 1 << 26,
      ...as,
    });
    return { status, stdout, stderr };
  };
  const { status, stderr } = does('npm', 'install', '--no-audit', '--no-fund', `./${tarball}`);
  if (status !== 0) throw new Error(`npm install of ${tarball} failed: ${stderr}`);
  const lock = JSON.parse(readFileSync(join(folder, 'node_modules/.package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, unknown>>;
  };
  return {
    folder,
    packages: Object.keys(lock.packages).map((path) => path.replace('node_modules/', '')),
    write: (name, text) => {
      writeFileSync(join(folder, name), text);
      own(join(folder, name));
    },
    does,
    remove: () => rmSync(folder, { recursive: true }),
  };
}
