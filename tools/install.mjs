/** Installs what is missing: the packages of package-lock.json, and for the browser tests a Chromium. Node alone, no packages. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, lstatSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const WINDOWS = process.platform === 'win32';

/** Runs a program with our own input and output. Returns its exit code; 1 when it could not be started. */
export function run(program, args, options = {}) {
  const done = spawnSync(program, args, { stdio: 'inherit', shell: WINDOWS, ...options });
  // Ended from outside, it gave no answer of its own: 1 and 2 are answers.
  return done.status ?? 3;
}

/** What package-lock.json asks for against what stands in node_modules, version by version. */
function packagesMissing(root) {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return true;
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const have = JSON.parse(readFileSync(installed, 'utf8')).packages;
  return Object.entries(wanted).some(
    ([path, entry]) => path !== '' && !entry.optional && have[path]?.version !== entry.version,
  );
}

/** Throws: Error with a sentence when the packages cannot be installed. */
export function installPackages(root) {
  if (!packagesMissing(root)) return;
  // npm empties what the link leads to, whoever else uses it.
  if (lstatSync(join(root, 'node_modules'), { throwIfNoEntry: false })?.isSymbolicLink()) {
    throw new Error(
      'node_modules is a link, and what it leads to is not what package-lock.json lists: remove the link.',
    );
  }
  console.log('Installing the packages that package-lock.json lists ...');
  if (run('npm', ['ci', '--no-audit', '--no-fund'], { cwd: root }) !== 0) {
    throw new Error(
      'The packages could not be installed. Check that this computer reaches the internet, then try again.',
    );
  }
}

function onPath(name) {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    const path = join(folder, name);
    try {
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // not in this folder: look in the next
    }
  }
  return null;
}

function knownChromium() {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROMIUM_PATH names ${named}, and no such file is there.`);
  }
  return onPath('chromium') ?? onPath('chromium-browser');
}

/**
 * The path of a Chromium for the browser tests: the one CHROMIUM_PATH names, or on the PATH, or else installed from
 * Debian's packages when this user may. Throws: Error with a sentence that says what to install.
 */
export function findChromium() {
  const found = knownChromium();
  if (found) return found;
  const apt = onPath('apt-get');
  const root = process.getuid?.() === 0;
  const sudo = root ? null : onPath('sudo');
  const mayInstall = root || (sudo && spawnSync(sudo, ['-n', 'true']).status === 0);
  if (apt && mayInstall) {
    console.log('Installing Chromium from the system packages for the browser tests ...');
    const prefix = root ? [] : [sudo, '-n'];
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
      const [program, ...rest] = [...prefix, apt, ...args];
      run(program, rest, { env });
    }
    const installed = knownChromium();
    if (installed) return installed;
  }
  throw new Error(
    'The browser tests need Chromium. Install it (on Debian: sudo apt-get install chromium), or set CHROMIUM_PATH to where it is, then run npm test again.',
  );
}
