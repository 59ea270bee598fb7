/**
 * The preparation step behind `npm start` and `npm test`: installs and builds what is missing, and nothing else.
 * It has no dependencies, since it runs before there are any.
 *
 *   --build   compile the rooms
 *   --tools   also bring the system tools that tests use, where this machine allows it
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const OLDEST_NODE = [20, 19];
/** Debian package of each program the tests call. */
const TOOLS = {
  pdftotext: 'poppler-utils',
  qpdf: 'qpdf',
  openssl: 'openssl',
  python3: 'python3',
};
/** Browsers that tests can open pages in, each a package and a program; the first computes for half as long. */
const BROWSERS = ['chromium-headless-shell', 'chromium'];

process.chdir(path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..'));
checkNode();
installPackages();
if (process.argv.includes('--build')) build();
if (process.argv.includes('--tools')) bringTools();

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  stop(
    `Breakbook needs Node ${OLDEST_NODE.join('.')} or later; this is ${process.versions.node}. Install a newer Node and run the command again.`,
  );
}

/** Packages are as the lock file says, for this Node on this kind of machine; the stamp remembers that. */
function installPackages() {
  const stamp = createHash('sha256')
    .update(fs.readFileSync('package-lock.json'))
    .update(`${process.version} ${process.platform} ${process.arch}`)
    .digest('hex');
  const stampFile = 'node_modules/.setup-stamp';
  if (fs.existsSync(stampFile) && fs.readFileSync(stampFile, 'utf8') === stamp) return;

  const npm = process.env.npm_execpath;
  const arguments_ = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  step('installing packages (first time: about a minute)', () =>
    npm ? run(process.execPath, [npm, ...arguments_]) : run('npm', arguments_),
  );
  fs.writeFileSync(stampFile, stamp);
}

function build() {
  const fresh = !fs.existsSync('apps/launch/dist/main.js');
  const compile = () => run(process.execPath, ['node_modules/typescript/bin/tsc', '-b']);
  if (fresh) step('compiling', compile);
  else compile();
  buildConsole();
}

/** The pages are built anew when a file they are made of has changed; the stamp lies with them and goes with them. */
function buildConsole() {
  const stamp = digestOf(['apps/console', 'libs', 'package-lock.json']);
  const stampFile = 'apps/console/dist/.sources';
  if (fs.existsSync(stampFile) && fs.readFileSync(stampFile, 'utf8') === stamp) return;

  step('building the pages', () =>
    run(process.execPath, ['node_modules/vite/bin/vite.js', 'build', 'apps/console', '--logLevel', 'error']),
  );
  fs.writeFileSync(stampFile, stamp);
}

/** One digest of the names and bytes of all source files here and below; tests and what was built are left out. */
function digestOf(places) {
  const hash = createHash('sha256').update(process.version);
  const take = (place) => {
    if (fs.statSync(place).isFile()) {
      if (!/\.test\.tsx?$/.test(place)) hash.update(`${place}\0`).update(fs.readFileSync(place)).update('\0');
    } else
      for (const name of fs.readdirSync(place).sort())
        if (name !== 'dist' && name !== 'node_modules') take(`${place}/${name}`);
  };
  for (const place of places) take(place);
  return hash.digest('hex');
}

function bringTools() {
  const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
  const mayInstall = process.getuid?.() === 0 && onPath('apt-get');
  const [best, any] = BROWSERS;
  const missing = new Set(
    Object.entries(TOOLS)
      .filter(([program]) => !onPath(program))
      .map(([, name]) => name),
  );
  if (!BROWSERS.some(onPath)) missing.add(any);
  if (missing.size > 0 && mayInstall) spawnSync('apt-get', ['update'], quiet);
  // Ubuntu has no such package.
  if (!onPath(best) && mayInstall && spawnSync('apt-cache', ['show', best], quiet).status === 0) {
    missing.delete(any);
    missing.add(best);
  }
  if (missing.size === 0) return;
  const packages = [...missing];
  const names = packages.join(' ');
  if (!mayInstall) {
    say(`tests that use ${names} will be listed as not run: install ${names} to run them`);
    return;
  }
  say(`installing the tools that tests use: ${names}`);
  const { status } = spawnSync('apt-get', ['install', '-y', '--no-install-recommends', ...packages], quiet);
  say(
    status === 0
      ? `installed ${names}`
      : `${names} could not be installed; tests that use them will be listed as not run`,
  );
}

function onPath(program) {
  return (process.env.PATH ?? '').split(path.delimiter).some((folder) => fs.existsSync(path.join(folder, program)));
}

function step(what, work) {
  const begun = Date.now();
  say(`${what} ...`);
  work();
  say(`${what.replace(/ \(.*/, '')}: done in ${((Date.now() - begun) / 1000).toFixed(0)} s`);
}

function run(program, arguments_) {
  const { status, error } = spawnSync(program, arguments_, { stdio: 'inherit' });
  if (error) stop(`${program} could not be started: ${error.message}`);
  if (status !== 0) process.exit(status ?? 70);
}

function say(line) {
  console.log(`breakbook: ${line}`);
}

function stop(line) {
  console.error(`breakbook: ${line}`);
  process.exit(70);
}
