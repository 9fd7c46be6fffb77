import type { Arrangement } from './arrangement.js';
import { timeOfBeat } from './clock.js';
import type { Kit } from './kit.js';
import type { Hit } from './mix/feed.js';
import { playDrums } from './patterns/drums.js';
import { chordOn } from './patterns/harmony.js';
import { playMarks } from './patterns/marks.js';
import { playPickUp } from './patterns/pickup.js';
import { playVoice } from './patterns/sung.js';
import { playBass, playHarmony } from './patterns/tonal.js';
import { BUSES } from './patterns/view.js';
import type { BarView, Bus, Habits, Placing } from './patterns/view.js';
import type { PhrasePlan } from './phrase.js';
import { seededRandom } from './random.js';
import type { Random } from './random.js';
import { RATE } from './sound/shot.js';
import { STYLE_TABLE } from './styles.js';
import type { Timeline } from './timeline.js';

/** All sounds of a track at their places, bus by bus. */
export type Score = Readonly<Record<Bus, readonly Hit[]>>;

/** Moves the second of two sixteenths to where the swing wants it. */
export function swung(offset: number, swing: number): number {
  const pair = Math.floor(offset * 2 + 1e-9) / 2;
  const within = (offset - pair) * 2;
  return pair + (within < 0.5 ? within * 2 * swing : swing + (within - 0.5) * 2 * (1 - swing)) / 2;
}

/** Degree of the progression in a bar of a phrase. */
function degreeAt(arrangement: Arrangement, plan: PhrasePlan, phraseBar: number): number {
  const apart = plan.function === 'breakdown' || plan.function === 'build-up';
  const list = (apart ? arrangement.breakProgression : undefined) ?? arrangement.progression;
  return list[(phraseBar - 1) % list.length];
}

function drawHabits(random: Random): Habits {
  return {
    drums: random.whole(0, 11),
    gaps: random.chance(0.25),
    pushes: random.chance(0.3),
    leads: random.chance(0.5),
  };
}

/** Plays an arrangement bar by bar. */
export function writeScore(arrangement: Arrangement, timeline: Timeline, kit: Kit): Score {
  const style = STYLE_TABLE[arrangement.style];
  const hits = Object.fromEntries(BUSES.map((bus) => [bus, [] as Hit[]])) as Record<Bus, Hit[]>;
  const constant = seededRandom(arrangement.seed).fork('patterns');
  const habits = drawHabits(constant.fork('habits'));
  const strokes = seededRandom(arrangement.seed).fork('strokes');
  const jitter = arrangement.drift?.jitter ?? 0;
  const timeAt = (position: number): number => timeOfBeat(timeline.times, position);

  for (const bar of timeline.bars) {
    const { plan } = timeline.phrases[bar.phrase];
    const next = timeline.phrases[bar.phrase + 1]?.plan ?? null;
    const barsLeft = plan.bars - bar.phraseBar + 1;
    const degree = degreeAt(arrangement, plan, bar.phraseBar);
    const holds = (phraseBar: number): boolean =>
      phraseBar >= 1 && phraseBar <= plan.bars && degreeAt(arrangement, plan, phraseBar) === degree;
    let chordAge = 0;
    while (holds(bar.phraseBar - chordAge - 1)) chordAge++;
    let chordBars = 1;
    while (holds(bar.phraseBar + chordBars)) chordBars++;
    const nextDegree =
      barsLeft === 1 && next ? degreeAt(arrangement, next, 1) : degreeAt(arrangement, plan, bar.phraseBar + 1);
    const hit = (bus: Bus, shot: Hit['shot'], offset: number, placing: Placing): void => {
      const scatter = placing.ends ? 0 : jitter * strokes.normal();
      const time = timeAt(bar.firstBeat + swung(offset, arrangement.swing)) + scatter;
      const frame = Math.round(time * RATE) - (placing.ends ? shot.left.length : 0);
      const pan = placing.pan ?? 0;
      hits[bus].push({
        shot,
        frame,
        left: placing.level * Math.min(1, 1 - pan),
        right: placing.level * Math.min(1, 1 + pan),
      });
    };
    const view: BarView = {
      arrangement,
      style,
      kit,
      bar,
      plan,
      next,
      barsLeft,
      verse: timeline.phrases.slice(0, bar.phrase).filter((other) => other.plan.function === plan.function).length,
      chord: chordOn(arrangement.key, degree, style.sevenths),
      nextChord: chordOn(arrangement.key, nextDegree, style.sevenths),
      chordAge: chordAge % 4,
      chordBars: Math.min(chordBars, 4 - (chordAge % 4)),
      habits,
      random: strokes.fork(`bar${bar.number}`),
      constant,
      hit,
      seconds: (from, to) => timeAt(bar.firstBeat + to) - timeAt(bar.firstBeat + from),
    };
    playDrums(view);
    playBass(view);
    playHarmony(view);
    playVoice(view);
    playPickUp(view);
    playMarks(view);
  }
  return hits;
}
