import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runQuietly } from './run-quietly.mjs';
import { contentOf, filesUnder, stateOf } from './sources.mjs';

const STAMP = 'dist/.built';
const BIN = 'dist/src/cli/main.js';
const MAN_PAGE = 'dist/man/barwise.1';
/** The scripts of the playable pages: TypeScript for the browser, bundled into one file each by the player's own program. */
const PAGE_SCRIPTS = { by: 'src/player/bundle.mjs', to: 'dist/src/player', names: ['browser.js', 'drill-browser.js'] };
/** What decides how a track is analysed, and where the build says which state of it this is: src/track/version.ts reads it. */
const ANALYSIS = ['units', 'audio', 'signal', 'learned', 'rhythm', 'form', 'tonality', 'loudness', 'wording', 'track'];
const ANALYSIS_STATE = 'dist/src/track/build-id';
/** Not part of the package: these run from the source tree only. */
const STAYS = /^src\/(setup\/|player\/browser\/|player\/bundle\.mjs)/;

/** Builds `dist/` when a source has changed since it was built. */
export async function ensureBuilt(root, say) {
  const sources = [...filesUnder(root, 'src'), ...filesUnder(root, 'reports'), 'tsconfig.json'];
  const state = stateOf(root, sources);
  const stamp = join(root, STAMP);
  if (!existsSync(join(root, BIN))) rmSync(join(root, 'dist', '.tsbuildinfo'), { force: true });
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === state && existsSync(join(root, BIN))) return;
  say('Building the program from its sources.');
  rmSync(stamp, { force: true });
  const project = join(root, 'src', 'setup', 'tsconfig.build.json');
  await runQuietly(process.execPath, [compilerOf(root), '-p', project], { cwd: root, what: 'The build', say });
  await bundlePageScripts(root, say);
  copyAssets(root, sources);
  removeOrphans(root, sources);
  writeFileSync(join(root, ANALYSIS_STATE), analysisState(root));
  await writeManPage(root, say);
  if (existsSync(join(root, BIN))) chmodSync(join(root, BIN), 0o755);
  writeFileSync(stamp, state);
}

/** Changes with every change of the code and the weights that an analysis comes from, and with no other. */
function analysisState(root) {
  const files = ANALYSIS.flatMap((folder) => filesUnder(root, `dist/src/${folder}`));
  return contentOf(
    root,
    files.filter((file) => !/\.d\.ts$|\.map$/.test(file) && file !== ANALYSIS_STATE),
  );
}

const compilerOf = (root) => join(root, 'node_modules', 'typescript', 'bin', 'tsc');

async function bundlePageScripts(root, say) {
  const args = [join(root, PAGE_SCRIPTS.by), join(root, PAGE_SCRIPTS.to)];
  await runQuietly(process.execPath, args, { cwd: root, what: 'The build of the pages', say });
}

/** The manual page, from the commands themselves. */
async function writeManPage(root, say) {
  const args = [join(root, 'dist', 'src', 'cli', 'man', 'write.js'), join(root, MAN_PAGE)];
  await runQuietly(process.execPath, args, { cwd: root, what: 'The build of the manual page', say });
}

/** What the compiler does not write: workers in plain JavaScript, style sheets, data. */
function copyAssets(root, sources) {
  for (const file of sources.filter(isAsset)) {
    mkdirSync(dirname(join(root, 'dist', file)), { recursive: true });
    copyFileSync(join(root, file), join(root, 'dist', file));
  }
}

function isAsset(file) {
  return /^(src|reports)\//.test(file) && !file.endsWith('.ts') && !STAYS.test(file);
}

/** Removes what was built from sources that are gone, so that nothing runs on a file that nobody can see. */
function removeOrphans(root, sources) {
  const kept = new Set(
    sources
      .filter(isAsset)
      .map((file) => `dist/${file}`)
      .concat(PAGE_SCRIPTS.names.map((name) => `${PAGE_SCRIPTS.to}/${name}`)),
  );
  for (const source of sources.filter((file) => file.endsWith('.ts'))) {
    const stem = `dist/${source.replace(/\.ts$/, '')}`;
    for (const ending of ['.js', '.d.ts']) kept.add(stem + ending);
  }
  for (const file of [...filesUnder(root, 'dist/src'), ...filesUnder(root, 'dist/reports')]) {
    if (!kept.has(file)) rmSync(join(root, file));
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
  try {
    // An installation without what only building needs is left as it is.
    const isLeft = process.env.npm_lifecycle_event === 'prepare' && !existsSync(compilerOf(root));
    if (!isLeft) await ensureBuilt(root, console.log);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
