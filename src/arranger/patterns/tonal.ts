import { bassNotes } from './bass-lines.js';
import { silencedFrom } from './fills.js';
import { scaleNote } from './harmony.js';
import type { Chord } from './harmony.js';
import type { BarView } from './view.js';

/** Places of stabs in a bar of four; one is drawn for the track. */
const STABS: readonly (readonly number[])[] = [
  [0.5, 1.5, 2.5, 3.5],
  [0, 0.75, 1.5, 2.5, 3.25],
  [0.75, 1.5, 2.75, 3.5],
  [0, 1.5, 3],
  [0.5, 1.25, 2.5, 3.25],
];

/** The bass of a bar. */
export function playBass(view: BarView): void {
  const { plan, bar, style, kit, chord } = view;
  if (!plan.has.bass) return;
  const choice = view.constant.fork('bass').whole(0, style.lines.length - 1);
  const other = plan.function === 'breakdown' || plan.halfTime;
  const line = style.lines[other ? style.lines.length - 1 - choice : choice];
  const { bass: until } = silencedFrom(view);
  const turn = bar.phraseBar % 4 === 0;
  for (const note of bassNotes(
    line,
    bar.beats,
    turn,
    view.constant.fork(`line${view.plan.function === 'drop' ? 1 : 0}`),
  )) {
    if (note.offset >= Math.min(until, bar.beats - 1e-6)) continue;
    const end = Math.min(note.offset + note.length, bar.beats, until);
    const leading = view.habits.leads && turn && note.offset >= bar.beats - 0.75;
    const pitch = leading
      ? scaleNote(view.arrangement.key, view.nextChord.degree - 2, chord.root)
      : chord.root + note.interval;
    const shot = kit.bass(pitch, view.seconds(note.offset, end));
    view.hit('bass', shot, note.offset, { level: 0.56 * note.level });
  }
}

/** The chord as it lies in this phrase: every other phrase turns it round by putting the lowest note on top. */
function voicing({ verse }: BarView, chord: Chord): readonly number[] {
  if (verse % 2 === 0) return chord.notes;
  const [lowest, ...others] = chord.notes;
  return [...others, lowest + 12];
}

function playPads(view: BarView): void {
  if (view.chordAge > 0) return;
  const { bar, kit, plan } = view;
  const end = view.chordBars > 1 ? view.chordBars * view.arrangement.beatsPerBar : bar.beats;
  const alone = !plan.has.kick;
  const shot = kit.chord('pad', voicing(view, view.chord), view.seconds(0, end));
  view.hit('chords', shot, 0, { level: alone ? 0.7 : 0.4 });
}

function playStabs(view: BarView): void {
  const { bar, kit } = view;
  const random = view.constant.fork(view.plan.function === 'drop' ? 'stabs of the drop' : 'stabs');
  const pattern = random.pick(STABS);
  const length = random.pick([0.2, 0.35, 0.5]);
  const held = (view.bar.phraseBar - 1) % 2 === 1 ? pattern : pattern.slice(0, -1);
  for (const offset of held) {
    if (offset >= bar.beats) continue;
    const end = Math.min(offset + length, bar.beats);
    const early = view.habits.pushes && offset >= bar.beats - 0.75;
    view.hit(
      'chords',
      kit.chord('stab', voicing(view, early ? view.nextChord : view.chord), view.seconds(offset, end)),
      offset,
      {
        level: 0.62 * view.random.between(0.85, 1.05),
      },
    );
  }
}

function playArp(view: BarView): void {
  const { bar, kit, chord, plan } = view;
  const random = view.constant.fork(`arp${plan.function === 'build-up' ? 'b' : 'a'}`);
  const turned = view.verse % 2 === 1 ? 3 : 0;
  const order = Array.from({ length: 8 }, () => random.whole(0, chord.notes.length + 1));
  const rests = Array.from({ length: 8 }, () => random.chance(0.2));
  const every = plan.function === 'build-up' ? 0.25 : random.pick([0.25, 0.5]);
  for (let offset = 0, i = 0; offset < bar.beats - 1e-6; offset += every, i++) {
    if (rests[i % 8] && i % 4 !== 0) continue;
    const index = order[(i + turned) % 8];
    const note = chord.notes[index % chord.notes.length] + (index >= chord.notes.length ? 12 : 0) + 12;
    const accent = offset % 1 === 0 ? 1 : 0.75;
    view.hit('lead', kit.pluck(note, view.seconds(0, every)), offset, {
      level: 0.44 * accent * view.random.between(0.85, 1.05),
      pan: i % 2 === 0 ? -0.25 : 0.25,
    });
  }
}

/** A melody of two bars; its second and fourth statement end differently. */
function playLead(view: BarView): void {
  const { arrangement, bar, kit, chord } = view;
  const place = (bar.phraseBar - 1) % 4;
  const melody = view.plan.function === 'drop' ? view.verse % 2 : 2;
  const shape = view.constant.fork(`lead${melody}${place % 2}${place === 3 ? 'end' : ''}`);
  let step = chord.degree - 1 + shape.pick([0, 2, 4]);
  for (let offset = 0; offset < bar.beats - 1e-6;) {
    const length = shape.pick([0.5, 0.75, 1, 0.5, 1.5]);
    const sounding = Math.min(length * 0.9, bar.beats - offset);
    if (!shape.chance(0.25)) {
      const note = scaleNote(arrangement.key, step, 74);
      view.hit('lead', kit.lead(note, view.seconds(offset, offset + sounding)), offset, { level: 0.42 });
    }
    step += shape.pick([-2, -1, -1, 1, 1, 2, 0]);
    offset += length;
  }
}

/** Pads, stabs, arpeggio and lead of a bar. */
export function playHarmony(view: BarView): void {
  if (!view.plan.has.harmony) return;
  const { textures } = view.plan;
  if (textures.includes('pad')) playPads(view);
  if (textures.includes('stabs')) playStabs(view);
  if (textures.includes('arp')) playArp(view);
  if (textures.includes('lead')) playLead(view);
}
