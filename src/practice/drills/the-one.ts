import type { TrackAnalysis } from '../../track/index.js';
import { BarwiseError, clock, type Seconds } from '../../units/index.js';
import { RATE, readStretch, type Stereo } from '../sound/stereo.js';
import { finish, type Drill, type DrillItem, type DrillOptions } from './drill.js';
import { fadeEdges } from './edges.js';

/** Bars of silence, question by question. */
const SILENCES = [1, 2, 4, 4, 8, 8, 16] as const;
/** Bars that are heard before a silence at least, and after it. */
const HEARD = 4;

/**
 * Say when the one comes: the track plays a group, falls silent for some bars, and returns on the one of a group. The
 * silences grow: 1, 2, 4, 4, 8, 8, 16 bars.
 * @experimental
 * @throws BarwiseError `bad-option` for a track that is too short for it
 */
export async function drillTheOne(analysis: TrackAnalysis, options: DrillOptions = {}): Promise<Drill> {
  const { bars, metre, tempo, source } = analysis;
  const ones = bars.filter((bar) => bar.groupBar === 1 && bar.beats === metre.beatsPerBar);
  const startOf = (number: number) => bars.find((bar) => bar.number === number)?.start;
  const range = await readStretch(source.file, 0, source.durationSeconds, options);
  const sound = { left: range.left.slice(), right: range.right.slice() };
  const items: DrillItem[] = [];
  let from = ones[Math.min(2, ones.length - 1)]?.number ?? Infinity;
  for (const silent of SILENCES) {
    // the track is back on a group one: the silence ends there
    const back = ones.find((bar) => bar.number >= from + HEARD + silent);
    const gone = bars.find((bar) => back !== undefined && bar.number === back.number - silent);
    if (back === undefined || gone === undefined) break;
    mute(sound, gone.start, back.start);
    const first = ones.findLast((bar) => bar.number <= gone.number - HEARD);
    const question = `The track falls silent for ${silent} ${silent === 1 ? 'bar' : 'bars'}: say "one" when it comes back.`;
    items.push({
      number: items.length + 1,
      time: gone.start,
      from: first?.start ?? 0,
      to: startOf(back.number + HEARD) ?? source.durationSeconds,
      question,
      answer: `${clock(back.start, 2)}, bar ${back.number}, the one of a group`,
      reply: { kind: 'tap', at: back.start },
    });
    from = back.number + HEARD;
  }
  if (items.length === 0)
    throw new BarwiseError('bad-option', 'The track is too short for this drill: choose a longer one.');
  const end = Math.min(sound.left.length, Math.round(items[items.length - 1].to * RATE));
  const title = 'Drill: say when the one comes';
  const instruction =
    'Count along. Where the track falls silent, go on counting and say "one" where you expect it back.';
  const { beatsPerBar } = metre;
  return finish(
    { name: 'the-one', instruction, choices: [], beat: 60 / tempo.bpm, beatsPerBar, items },
    title,
    { left: sound.left.slice(0, end), right: sound.right.slice(0, end) },
    options,
  );
}

function mute(sound: Stereo, from: Seconds, to: Seconds): void {
  const [start, end] = [Math.round(from * RATE), Math.round(to * RATE)];
  sound.left.fill(0, start, end);
  sound.right.fill(0, start, end);
  fadeEdges(sound, 0, start);
}
