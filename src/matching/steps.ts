import type { Seconds } from '../units/index.js';
import { barAt, barStartingAt, type CountedBar, type TrackCount } from './count.js';
import { beatOfA, beatOfB, type Frame } from './frame.js';
import type { OneOf, PlanAction, PlanStep } from './places.js';

/** Each one of the overlap on which something happens or a group starts, in both records. */
export function stepsOf(frame: Frame, secondsPerBeat: Seconds): PlanStep[] {
  const { a, b, from, to, leaving } = frame;
  const beats = new Set<number>([from, to, leaving.beat]);
  for (const bar of a.bars) if (isOne(a, bar)) beats.add(bar.firstBeat);
  for (const bar of b.bars) if (isOne(b, bar)) beats.add(beatOfA(frame, bar.firstBeat));
  const inside = [...beats].filter((beat) => beat >= from && beat <= to).sort((x, y) => x - y);
  return inside.map((beat) => {
    const barsLeft = a.bars.filter((bar) => bar.firstBeat >= beat && bar.firstBeat < to).length;
    return {
      beat: beat - from,
      elapsed: (beat - from) * secondsPerBeat,
      a: beat < a.end ? oneOf(a, beat) : null,
      b: oneOf(b, beatOfB(frame, beat)),
      actions: actionsAt(frame, beat),
      barsLeft,
      timeLeft: (to - beat) * secondsPerBeat,
    };
  });
}

function actionsAt({ from, to, leaving }: Frame, beat: number): PlanAction[] {
  return [
    ...(beat === from ? (['start-b'] as const) : []),
    ...(beat === leaving.beat
      ? to > beat && from < beat
        ? (['bass-swap', 'change-over'] as const)
        : (['change-over'] as const)
      : []),
    ...(beat === to ? (['a-out'] as const) : []),
  ];
}

/** Group one, phrase one, or a bar in which a layer comes or goes. */
function isOne(count: TrackCount, bar: CountedBar): boolean {
  return bar.groupBar === 1 || bar.startsPhrase !== null || changesIn(count, bar).length > 0;
}

function oneOf(count: TrackCount, beat: number): OneOf | null {
  const bar = barStartingAt(count, beat) ?? barAt(count, beat);
  if (bar === null || beat >= count.end) return null;
  return {
    bar: bar.number,
    time: bar.start,
    groupBar: bar.groupBar,
    phraseStarts: bar.startsPhrase !== null,
    section: bar.startsSection?.function ?? null,
    changes: changesIn(count, bar).map(({ layer, change }) => ({ layer, change })),
  };
}

function changesIn({ analysis }: TrackCount, bar: CountedBar) {
  return analysis.events.filter((event) => event.bar === bar.number);
}
