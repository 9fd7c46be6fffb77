import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { hitScore, layerHits, readTruth, scoreTrack, type Hits, type Scores } from '../../src/evaluation/index.js';
import { LAYERS, type Layer } from '../../src/units/index.js';
import { analysed } from './analysed.js';
import { fillBetween } from './docs.js';
import { cachedFrontEnd, pieceIds } from './song-front-ends.js';
import { eightBars } from './song.js';
import { layerEvents, type Entry } from './styled-layers.js';
import { interval, markdown } from './tables.js';
import { isLocked } from './train-folds.js';

const USAGE = `npx tsx tests/corpus/styled.ts FOLDER [--docs]
  Finds grid and form of the pieces of FOLDER/styled (made by tests/corpus/build/styled.py) in styles that no weights were
  fitted on, and says how often groups, sections and what layers do are right.`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { docs: { type: 'boolean', default: false } },
});

interface Heard {
  readonly scores: Scores;
  /** "Every 8 bars" on our own bars. */
  readonly eights: Scores;
  readonly layers: Readonly<Record<Layer, Hits>>;
}

interface Piece {
  readonly style: string;
  readonly entries: readonly Entry[];
}

function hear(folder: string, id: string): Heard | null {
  const json = JSON.parse(readFileSync(join(folder, 'truth', `${id}.json`), 'utf8')) as Piece;
  if (!isLocked(`played-${json.style}`)) return null;
  const truth = readTruth(json);
  const { said, events } = analysed(cachedFrontEnd(folder, id, join(folder, 'front-ends')));
  const { 'every 8 bars': eights = said } = eightBars(said);
  const bar = (60 / truth.bpm!) * truth.beatsPerBar;
  const planted = layerEvents(json.entries);
  const hits = (layer: Layer) => {
    const of = (e: { layer: Layer }) => e.layer === layer;
    // The first sounds and the end need no finding.
    const inside = (e: { time: number }) => e.time > bar / 2 && e.time < truth.duration - bar;
    return layerHits(planted.filter(of).filter(inside), events.filter(of).filter(inside), bar);
  };
  return {
    scores: scoreTrack(truth, said),
    eights: scoreTrack(truth, eights),
    layers: Object.fromEntries(LAYERS.map((l) => [l, hits(l)])) as unknown as Heard['layers'],
  };
}

function main(folder: string): void {
  const styled = join(folder, 'styled');
  const heard = pieceIds(styled).flatMap((id) => hear(styled, id) ?? []);
  const mean = (of: (h: Heard) => number | null) => {
    const known = heard.map(of).filter((v) => v !== null);
    return `${interval(known)} n ${known.length}`;
  };
  const sectionsOf = (s: (h: Heard) => Scores) => [mean((h) => s(h).boundaryHalfBeatF), mean((h) => s(h).boundary3F)];
  const beatsAndGroups = [mean((h) => h.scores.beatF), mean((h) => h.scores.downbeatF), mean((h) => h.scores.groupF)];
  const sections = markdown(
    ['kept-back styles', 'beat F', 'downbeat F', 'group starts F', 'sections F, ½ beat', 'sections F, 3 s'],
    [
      ['Barwise', ...beatsAndGroups, ...sectionsOf((h) => h.scores)],
      ['every 8 bars', '', '', '', ...sectionsOf((h) => h.eights)],
    ],
  );
  const layers = markdown(
    ['layer', 'entries and exits', 'found', 'right', 'F, one bar'],
    LAYERS.filter((l) => l !== 'voice').map((l) => {
      const sum = (key: keyof Hits) => heard.reduce((s, h) => s + h.layers[l][key], 0);
      const all = { planted: sum('planted'), found: sum('found'), hits: sum('hits') };
      return [l, String(all.planted), String(all.found), String(all.hits), hitScore(all).f?.toFixed(3) ?? '–'];
    }),
  );
  console.log(`${sections}\n\n${layers}`);
  if (!values.docs) return;
  const head = `${new Date().toISOString().slice(0, 10)}, \`npx tsx tests/corpus/styled.ts FOLDER --docs\`.`;
  fillBetween(new URL('../../docs/accuracy.md', import.meta.url), 'styled', `${head}\n\n${sections}\n\n${layers}`);
}

if (positionals.length !== 1) {
  console.error(USAGE);
  process.exitCode = 2;
} else {
  main(positionals[0]);
}
