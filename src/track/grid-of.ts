import type { Grid } from '../rhythm/index.js';
import type { TrackAnalysis } from './analysis.js';

/** The grid that an analysis was made on, from what is stored of it. @experimental */
export function gridOf(analysis: TrackAnalysis): Grid {
  const { beats, bars, tempo, metre } = analysis;
  let firstBeat = 0;
  const gridBars = bars.map((bar, i) => {
    const entry = {
      number: bar.number,
      start: bar.start,
      end: bars[i + 1]?.start ?? bar.start + (bar.beats * 60) / lastTempo(analysis),
      beats: bar.beats,
      firstBeat,
    };
    firstBeat += bar.beats;
    return entry;
  });
  return {
    tempo,
    metre,
    beats,
    bars: gridBars,
    downbeat: analysis.downbeat,
    beatPhase: analysis.beatPhase,
    swing: analysis.swing,
    irregularities: [],
  };
}

function lastTempo({ tempo }: TrackAnalysis): number {
  return tempo.pieces[tempo.pieces.length - 1]?.bpm ?? tempo.bpm;
}
