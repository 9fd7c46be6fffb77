import type { FrontEnd } from '../signal/index.js';
import type { TrackAnalysis } from '../track/index.js';
import { ONE_CUES, oneEvidence } from './one-evidence.js';
import { VEGA_LITE_SCHEMA, type ChartSpec, type SpecPart } from './spec.js';
import { table } from './table.js';
import { COLOURS, CONFIG } from './theme.js';

/**
 * The evidence for each reading of the one: for every beat of the bar, how much speaks for counting "1" there. The beat
 * that is counted as 1 now is the first; a taller column elsewhere is what a doubter should listen for.
 * @experimental
 */
export function oneEvidenceChart(
  frontEnd: Pick<FrontEnd, 'bands' | 'chroma' | 'fine'>,
  analysis: TrackAnalysis,
): ChartSpec {
  const readings = oneEvidence(frontEnd, analysis);
  const name = (beat: number) => (beat === 1 ? 'beat 1 (as counted)' : `beat ${beat}`);
  const order = readings.map(({ beat }) => name(beat));
  const rows = readings.flatMap((reading) =>
    ONE_CUES.map((cue) => ({ beat: name(reading.beat), cue, value: reading.cues[cue] })),
  );
  const weights = readings.filter(({ weight }) => weight !== null);
  const weighed = weights.map(({ beat, weight }) => `beat ${beat} ${Math.round(100 * weight!)} %`).join(', ');
  const { confidence } = analysis.downbeat;
  const sure = confidence === null ? 'not judged' : `${Math.round(100 * confidence)} % sure`;
  const x: SpecPart = { field: 'beat', type: 'nominal', sort: order, axis: { title: null, labelAngle: 0 } };
  return {
    $schema: VEGA_LITE_SCHEMA,
    description: 'Evidence for each beat of the bar being the first.',
    title: {
      text: 'Where is the one?',
      subtitle: [
        'Up: more than on the other beats of the bar, averaged over the track.',
        `Bar one as counted: ${sure}${weighed === '' ? '' : `; readings weighed: ${weighed}`}.`,
      ],
    },
    data: table({ beat: rows.map((r) => r.beat), cue: rows.map((r) => r.cue), value: rows.map((r) => r.value) }),
    width: Math.max(360, readings.length * 120),
    height: 170,
    mark: { type: 'bar', stroke: COLOURS.ink, strokeWidth: 0.5 },
    encoding: {
      x,
      xOffset: { field: 'cue', sort: [...ONE_CUES] },
      y: {
        field: 'value',
        type: 'quantitative',
        scale: { domain: [-2, 2] },
        axis: { title: 'less · evidence · more', tickCount: 3, labels: false, grid: true, gridColor: COLOURS.faint },
      },
      color: {
        field: 'cue',
        type: 'nominal',
        sort: [...ONE_CUES],
        scale: { domain: [...ONE_CUES], range: [COLOURS.deep, COLOURS.middle, COLOURS.pale] },
        legend: { title: null, orient: 'bottom', labelLimit: 0 },
      },
    },
    config: CONFIG,
  };
}
