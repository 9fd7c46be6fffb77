import { LAYERS, type Layer, type TrackAnalysis } from '../../src/index.js';

/** A track with nothing in it but bars in even phrases, for a ladder to be filled in: no row gives an odd one away. */
export function blankTrack(track: TrackAnalysis): TrackAnalysis {
  const bars = evenBars(track);
  const silent = Object.fromEntries(LAYERS.map((layer) => [layer, bars.map(() => 0)])) as Record<Layer, number[]>;
  const phrases = phrasesOf(bars);
  return { ...track, bars, phrases, sections: [], events: [], irregularities: [], layers: silent };
}

/** The bars as they are, all with the usual number of beats: an odd one is for the ear to find. */
function trueBars({ bars, metre }: TrackAnalysis): TrackAnalysis['bars'] {
  return bars.filter((b) => b.number >= 1).map((b) => ({ ...b, beats: metre.beatsPerBar }));
}

/** As many bars in phrases of the usual length, and a row to spare: where the track differs is for the ear to find. */
function evenBars(track: TrackAnalysis): TrackAnalysis['bars'] {
  const whole = trueBars(track);
  const { phraseBars } = track;
  const rows = Math.ceil(whole.length / phraseBars) + 1;
  return Array.from({ length: rows * phraseBars }, (_, i) => ({
    number: i + 1,
    start: whole[Math.min(i, whole.length - 1)].start,
    beats: track.metre.beatsPerBar,
    group: Math.floor(i / 4) + 1,
    groupBar: (i % 4) + 1,
    phrase: Math.floor(i / phraseBars) + 1,
    phraseBar: (i % phraseBars) + 1,
  }));
}

function phrasesOf(bars: TrackAnalysis['bars']): TrackAnalysis['phrases'] {
  const starts = bars.filter((b, i) => i === 0 || b.phrase !== bars[i - 1].phrase);
  return starts.map((first, i) => {
    const endBar = (starts[i + 1]?.number ?? bars.at(-1)!.number + 1) - 1;
    const count = endBar - first.number + 1;
    const [start, end] = [first.start, starts[i + 1]?.start ?? bars.at(-1)!.start];
    return { number: i + 1, startBar: first.number, endBar, start, end, bars: count, regular: true, confidence: 1 };
  });
}
