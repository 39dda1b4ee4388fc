// What has to be on the machine before anything else can run. Node's own modules only: this file also
// runs in a fresh clone, before any package is installed.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The repository's root folder. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Runs a command in the root folder with its output shown; returns its exit code. */
export function run(command, args, options = {}) {
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (error) console.error(`${command}: ${error.message}`);
  return status ?? 1;
}

/** The path of a tool that a package in node_modules provides, to be run with Node. */
export const tool = (file) => path.join(root, 'node_modules', file);

/** Whether node_modules holds what the lock file says. */
function packagesAreThere() {
  const hidden = path.join(root, 'node_modules', '.package-lock.json');
  if (!fs.existsSync(hidden)) return false;
  const packages = (file) => JSON.parse(fs.readFileSync(file, 'utf8')).packages;
  const installed = packages(hidden);
  return Object.entries(packages(path.join(root, 'package-lock.json'))).every(
    ([folder, { version, optional, devOptional, peer }]) =>
      folder === '' || optional || devOptional || peer || installed[folder]?.version === version,
  );
}

/** Installs the npm packages of the lock file where they are missing or of another version. */
export function ensurePackages() {
  if (packagesAreThere()) return;
  console.log('installing npm packages');
  // `npm ci` from inside an npm script keeps that script's npm settings, which is what is wanted here.
  if (run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']) !== 0) {
    throw new Error('npm ci failed');
  }
}

/** Debian packages that the tests need: a PDF reader and another editor, beside what the real-editor tests install themselves. */
const debianPackages = { pdftotext: 'poppler-utils', nvim: 'neovim' };

/** Installs missing Debian packages; says so and goes on where that is not possible. */
export function ensureDebianPackages() {
  const missing = Object.entries(debianPackages)
    .filter(([program]) => spawnSync('which', [program]).status !== 0)
    .map(([, name]) => name);
  if (missing.length === 0) return;
  const sudo = process.getuid?.() === 0 ? [] : ['sudo'];
  const apt = (...args) => {
    const [command, ...rest] = [...sudo, 'apt-get', '-qq', ...args];
    return run(command, rest, {
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  };
  console.log(`installing Debian packages: ${missing.join(' ')}`);
  apt('update');
  if (apt('install', '-y', '--no-install-recommends', ...missing) !== 0) {
    console.error(`could not install ${missing.join(' ')}: tests that need them will fail`);
  }
}
