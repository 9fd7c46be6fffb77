/** How a measure is put: a share from 0 to 1, milliseconds, BPM, or per cent. @experimental */
export type Unit = 'share' | 'ms' | 'BPM' | '%';

/** How a measure is shown. @experimental */
export interface MeasureInfo {
  /** As it stands in tables. */
  readonly name: string;
  readonly unit: Unit;
  /** Over tracks: the mean, or the median where one track on the wrong level would drown the rest. */
  readonly over: 'mean' | 'median';
}

const share = (name: string): MeasureInfo => ({ name, unit: 'share', over: 'mean' });
const error = (name: string, unit: Unit): MeasureInfo => ({ name, unit, over: 'median' });

/** The measures, in the order of the tables. @experimental */
export const MEASURE_INFO = {
  tempo1: share('tempo accuracy 1'),
  tempo2: share('tempo accuracy 2'),
  tempoErrorPercent: error('tempo error at the nearest level', '%'),
  tempoErrorBpm: error('tempo error at the right level', 'BPM'),
  beatF: share('beat F'),
  pScore: share('P-score'),
  cemgil: share('Cemgil'),
  cmlc: share('CMLc'),
  cmlt: share('CMLt'),
  amlc: share('AMLc'),
  amlt: share('AMLt'),
  informationGain: share('information gain'),
  beatMedianMs: error('beat error, median', 'ms'),
  beat95Ms: error('beat error, 95 %', 'ms'),
  beatBiasMs: error('beat bias (+ late)', 'ms'),
  beatsMatched: share('share of beats matched'),
  lastBeatMs: error('error of the last beat', 'ms'),
  downbeatF: share('downbeat F'),
  groupF: share('group starts F'),
  phraseF: share('phrase starts F'),
  boundaryHalfBeatF: share('sections F, ½ beat'),
  boundaryBeatF: share('sections F, one beat'),
  boundaryBarF: share('sections F, one bar'),
  boundary05F: share('sections F, 0.5 s'),
  boundary3F: share('sections F, 3 s'),
  pairwiseF: share('sections pairwise F'),
  key: share('key'),
} as const satisfies Readonly<Record<string, MeasureInfo>>;

/** A name of `MEASURE_INFO`. @experimental */
export type Measure = keyof typeof MEASURE_INFO;
/** Every measure, in the order of the tables. @experimental */
export const MEASURES = Object.keys(MEASURE_INFO) as readonly Measure[];

const DIGITS: Readonly<Record<Unit, number>> = { share: 3, ms: 1, BPM: 4, '%': 4 };

/** A value in the unit and with the digits of its measure, without the unit. @experimental */
export function measureText(measure: Measure, value: number): string {
  return value.toFixed(DIGITS[MEASURE_INFO[measure].unit]);
}
