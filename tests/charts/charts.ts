import {
  beatPhaseChart,
  chromaChart,
  comparisonChart,
  computeCurves,
  layersChart,
  LINKABLE,
  linkedCharts,
  noveltyChart,
  oneEvidenceChart,
  onsetChart,
  selfSimilarityChart,
  tempoChart,
  tempogramChart,
  waveformChart,
  type ChartSpec,
  type TrackCurves,
} from '../../src/charts/index.js';
import type { FrontEnd } from '../../src/signal/index.js';
import type { TrackAnalysis } from '../../src/track/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { soundOf } from './sound.js';

/** A track of 23 bars, short enough to synthesise in every test file that needs sound. */
export function shortTrack(): { analysis: TrackAnalysis; curves: TrackCurves; frontEnd: FrontEnd } {
  const analysis = sampleAnalysis(
    [
      { function: 'intro', phrases: [4], layers: ['kick', 'percussion'] },
      { function: 'main', phrases: [8], layers: ['kick', 'bass', 'percussion', 'harmony'] },
      { function: 'breakdown', phrases: [3], layers: ['harmony', 'voice'] },
      { function: 'drop', phrases: [8], layers: ['kick', 'bass', 'percussion', 'harmony', 'voice'] },
    ],
    { phraseBars: 8 },
  );
  const frontEnd = soundOf(analysis);
  return { analysis, frontEnd, curves: computeCurves(frontEnd, analysis) };
}

/** Every chart there is, whole and close up. */
export function everyChart(
  curves: TrackCurves,
  analysis: TrackAnalysis,
  frontEnd: FrontEnd,
): Record<string, ChartSpec> {
  const middle = curves.duration / 2;
  const closeUp = { from: middle - 3, to: middle + 3 };
  return {
    waveform: waveformChart(curves, analysis),
    'waveform, close up': waveformChart(curves, analysis, closeUp),
    onsets: onsetChart(curves, analysis),
    'onsets, close up': onsetChart(curves, analysis, closeUp),
    novelty: noveltyChart(curves, analysis),
    'novelty over 16 bars': noveltyChart(curves, analysis, { halfBars: 16 }),
    tempogram: tempogramChart(curves, analysis),
    similarity: selfSimilarityChart(curves, analysis),
    'similarity, close up': selfSimilarityChart(curves, analysis, closeUp),
    layers: layersChart(analysis),
    'beat phase': beatPhaseChart(curves),
    tempo: tempoChart(analysis),
    chroma: chromaChart(frontEnd, analysis),
    'chroma, close up': chromaChart(frontEnd, analysis, closeUp),
    'evidence for the one': oneEvidenceChart(frontEnd, analysis),
    comparison: comparisonChart(analysis, analysis, { bars: [5, 1], names: ['Slack Water', 'Slack Water'] }),
    linked: linkedCharts({ analysis, curves, frontEnd }, LINKABLE),
  };
}
