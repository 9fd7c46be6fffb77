import { trackName, type TrackOutline } from '../../crate/index.js';
import { keyName } from '../../wording/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec } from '../spec.js';
import { COLOURS, CONFIG } from '../theme.js';
import { shortened } from './names.js';
import { labelOf } from '../labels.js';

/** Tracks that can be named one by one; a larger crate is drawn as a histogram. */
const NAMED = 60;
/** Width of a bar of the histogram, in beats a minute. */
const STEP = 2;

/**
 * The tempos of a crate: a row a track, slowest on top, or a histogram where there are too many to name.
 * @experimental
 */
export function crateTempoChart(tracks: readonly TrackOutline[]): ChartSpec {
  return tracks.length <= NAMED ? named(tracks) : counted(tracks);
}

function named(tracks: readonly TrackOutline[]): ChartSpec {
  const rows = tracks
    .toSorted((a, b) => a.tempo.bpm - b.tempo.bpm)
    .map((track, i) => ({
      place: `${i}`.padStart(3, '0'),
      name: shortened(trackName(track)),
      bpm: track.tempo.bpm,
      says: `${track.tempo.bpm.toFixed(1)}${track.key.tonic && track.key.mode ? `  ${keyName(track.key.tonic, track.key.mode)}` : ''}`,
    }));
  const names = Object.fromEntries(rows.map(({ place, name }) => [place, name]));
  const y = {
    field: 'place',
    type: 'nominal',
    sort: 'ascending',
    axis: { title: null, labelExpr: labelOf(names), domain: false, ticks: false },
  } as const;
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: `Tempo of each of ${tracks.length} tracks.`,
    title: { text: 'Tempo', subtitle: 'Beats a minute, slowest on top, with the key' },
    width: 480,
    height: { step: 20 },
    data: { values: rows },
    encoding: { y, x: { ...BPM_AXIS, field: 'bpm' } },
    layer: [
      { mark: { type: 'point', filled: true, size: 60, color: COLOURS.deep } },
      {
        mark: { type: 'text', align: 'left', dx: 8, color: COLOURS.quiet, fontSize: 11 },
        encoding: { text: { field: 'says' } },
      },
    ],
    config: CONFIG,
  };
}

function counted(tracks: readonly TrackOutline[]): ChartSpec {
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: `How many of ${tracks.length} tracks have which tempo.`,
    title: { text: 'Tempo', subtitle: `Tracks in steps of ${STEP} beats a minute` },
    width: 480,
    height: 150,
    data: { values: tracks.map(({ tempo }) => ({ bpm: Math.floor(tempo.bpm / STEP) * STEP })) },
    mark: { type: 'bar', color: COLOURS.middle },
    encoding: {
      x: { ...BPM_AXIS, field: 'bpm', bin: { step: STEP } },
      y: { aggregate: 'count', type: 'quantitative', axis: { title: 'tracks', tickMinStep: 1 } },
    },
    config: CONFIG,
  };
}

const BPM_AXIS = {
  type: 'quantitative',
  scale: { zero: false, nice: true, padding: 30 },
  axis: { title: 'beats a minute', grid: true, gridColor: COLOURS.faint },
} as const;
