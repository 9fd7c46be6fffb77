import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { printCards } from '../../../reports/index.js';
import { runNotebook } from '../../notebook/index.js';
import { BarwiseError } from '../../units/index.js';
import { analyse } from '../analyse.js';
import { makeDemoCrate } from '../demo-crate.js';
import { EXIT, exitCodeFor, type ExitCode } from '../exit-codes.js';
import { say, type Io } from '../io.js';
import { writePage } from '../page-file.js';
import { findNotebook } from './notebook.js';

const NOTEBOOK = 'inspect-track';
/** The track that the notebook looks into: one with an irregularity to find. */
const INSPECTED = /rope-locker-lights/;

/** `barwise demo`: makes the demo crate and everything that Barwise makes of a crate. A second run takes what is there. */
export async function demoCommand({ folder }: { readonly folder: string }, io: Io): Promise<ExitCode> {
  const { signal } = io;
  await mkdir(folder, { recursive: true });

  say(io, 'Making the demo crate: nine tracks of a workshop that does not exist.');
  const files = await makeDemoCrate(join(folder, 'crate'), {
    signal,
    onTrack: ({ title, written, done, total }) =>
      say(io, `  ${done} of ${total}  ${title}: ${written ? 'made' : 'there already'}`),
  });

  say(io, 'Analysing it.');
  const crate = await analyse(files, {}, io, { lines: true });

  const cards = join(folder, 'cards.pdf');
  say(io, `Printing the cards: ${cards}`);
  if (crate.tracks.length > 0) await printCards(crate.tracks, cards, { signal, overwrite: true });

  const page = resolve(folder, 'index.html');
  say(io, `Making the page: ${join(folder, 'index.html')}`);
  await writePage(page, crate.tracks, { title: 'Demo crate', analysis: { signal } });

  const inspected = join(folder, `${NOTEBOOK}.html`);
  say(io, `Running the notebook: ${inspected}`);
  const complaint = await inspect(folder, inspected, files, signal);
  if (complaint) say(io, complaint);

  say(io, 'All done. Open this page in a browser, by a double click or by its address, and press play:');
  io.stdout.write(`${pathToFileURL(page).href}\n`);
  return complaint ? EXIT.fault : exitCodeFor(crate);
}

/** Runs the notebook on a track of the crate; gives a sentence when that did not work, because the rest stands without it. */
async function inspect(
  folder: string,
  html: string,
  files: readonly string[],
  signal: AbortSignal,
): Promise<string | null> {
  const parameters = { track: resolve(files.find((file) => INSPECTED.test(file)) ?? files[0]) };
  try {
    const notebook = findNotebook(NOTEBOOK);
    const { failure } = await runNotebook(
      { notebook, parameters, out: join(folder, `${NOTEBOOK}.ipynb`), html },
      { signal },
    );
    return failure && `Code cell ${failure.cell} of it failed (${failure.name}: ${failure.message}).`;
  } catch (error) {
    if (error instanceof BarwiseError && error.code !== 'aborted') return error.message;
    throw error;
  }
}
