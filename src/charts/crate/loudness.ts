import { trackName, type TrackOutline } from '../../crate/index.js';
import { VEGA_LITE_SCHEMA, type ChartSpec } from '../spec.js';
import { COLOURS, CONFIG } from '../theme.js';
import { shortened } from './names.js';

/** Tracks that can be named in the picture. */
const NAMED = 30;

/**
 * Loudness against tempo: what lies low needs gain, what lies far apart needs a long way on the fader.
 * @experimental
 */
export function crateLoudnessChart(tracks: readonly TrackOutline[]): ChartSpec {
  const measured = tracks.filter(({ loudness }) => loudness.integratedLufs !== null);
  const values = measured.map((track) => ({
    bpm: track.tempo.bpm,
    lufs: track.loudness.integratedLufs,
    name: shortened(trackName(track)),
  }));
  const points = { mark: { type: 'point', filled: true, size: 50, color: COLOURS.deep } };
  const names = {
    mark: { type: 'text', align: 'left', dx: 7, dy: 1, color: COLOURS.quiet, fontSize: 11 },
    encoding: { text: { field: 'name' } },
  };
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: `Integrated loudness and tempo of ${measured.length} tracks.`,
    title: { text: 'Loudness and tempo', subtitle: 'Integrated loudness after ITU-R BS.1770; 1 LU is 1 dB of gain' },
    width: 480,
    height: 260,
    data: { values },
    encoding: {
      x: {
        field: 'bpm',
        type: 'quantitative',
        scale: { zero: false, padding: 70 },
        axis: { title: 'beats a minute', grid: true, gridColor: COLOURS.faint },
      },
      y: {
        field: 'lufs',
        type: 'quantitative',
        scale: { zero: false, padding: 12 },
        axis: { title: 'LUFS', grid: true, gridColor: COLOURS.faint, minExtent: 0 },
      },
    },
    layer: measured.length <= NAMED ? [points, names] : [points],
    config: CONFIG,
  };
}
