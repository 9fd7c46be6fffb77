import type { Seconds } from '../units/index.js';
import { BASSES, renderBass } from './instruments/bass.js';
import {
  renderClosedHat,
  renderCrash,
  renderOpenHat,
  renderReverseCrash,
  renderRide,
  renderShaker,
} from './instruments/cymbals.js';
import { renderClap, renderRim, renderSkin, renderSnare } from './instruments/drums.js';
import { renderBoom, renderFall, renderRiser } from './instruments/effects.js';
import { CHORDS, renderChord } from './instruments/keys.js';
import type { ChordName } from './instruments/keys.js';
import { KICKS, renderKick } from './instruments/kick.js';
import { renderLead, renderPluck } from './instruments/melody.js';
import { renderSyllable } from './instruments/voice.js';
import type { Syllable } from './instruments/voice.js';
import type { Random } from './random.js';
import type { Shot } from './sound/shot.js';
import type { Style } from './styles.js';

/** The instruments of one track: each sound is rendered when first asked for and then kept for the rendering. */
export interface Kit {
  kick(): Shot;
  closedHat(variant: number): Shot;
  openHat(): Shot;
  ride(): Shot;
  shaker(variant: number): Shot;
  clap(variant: number): Shot;
  snare(stroke: 'back' | 'ghost' | 'roll'): Shot;
  skin(index: number): Shot;
  rim(): Shot;
  tom(index: number): Shot;
  crash(): Shot;
  reverseCrash(duration: Seconds): Shot;
  bass(note: number, duration: Seconds): Shot;
  /** Held chords and short ones have an instrument each. */
  chord(use: 'pad' | 'stab', notes: readonly number[], duration: Seconds): Shot;
  pluck(note: number, duration: Seconds): Shot;
  lead(note: number, duration: Seconds): Shot;
  syllable(syllable: Syllable): Shot;
  riser(duration: Seconds): Shot;
  fall(duration: Seconds): Shot;
  boom(): Shot;
}

/** Durations are rounded to this, so that a drifting tempo does not ask for a new sound each bar. */
const DURATION_STEP: Seconds = 0.02;

/** The first of a list half of the time, else any of them. */
function usually<T>(list: readonly T[], random: Random): T {
  return random.chance(0.5) ? list[0] : random.pick(list);
}

/** Draws the instruments of a style. */
export function createKit(style: Style, random: Random): Kit {
  const kept = new Map<string, Shot>();
  const keep = (name: string, render: (stream: Random) => Shot): Shot => {
    let shot = kept.get(name);
    if (shot === undefined) {
      shot = render(random.fork(name));
      kept.set(name, shot);
    }
    return shot;
  };
  const rounded = (duration: Seconds): Seconds =>
    Math.max(DURATION_STEP, Math.round(duration / DURATION_STEP) * DURATION_STEP);
  const traits = random.fork('traits');
  const metal = traits.between(290, 420);
  const snarePitch = traits.between(165, 215);
  const snareRinging = traits.between(0.06, 0.13);
  const skinPitch = traits.between(170, 230);
  const hardness = traits.next();
  const kick = usually(style.kicks, traits);
  const bass = usually(style.basses, traits);
  const keys: Record<'pad' | 'stab', ChordName> = {
    pad: usually(style.pads, traits),
    stab: usually(style.stabs, traits),
  };
  return {
    kick: () => keep('kick', (r) => renderKick(KICKS[kick], r)),
    closedHat: (variant) => keep(`closed${variant}`, (r) => renderClosedHat(r, metal)),
    openHat: () => keep('open', (r) => renderOpenHat(r, metal)),
    ride: () => keep('ride', (r) => renderRide(r, metal)),
    shaker: (variant) => keep(`shaker${variant}`, renderShaker),
    clap: (variant) => keep(`clap${variant}`, renderClap),
    snare: (stroke) =>
      keep(`snare-${stroke}`, (r) =>
        renderSnare(
          r,
          snarePitch * (stroke === 'back' ? 1 : 1.12),
          stroke === 'back' ? snareRinging : snareRinging * 0.5,
        ),
      ),
    skin: (index) =>
      keep(`skin${index}`, (r) => renderSkin(r, skinPitch * [1, 1.5, 2.1][index], 0.05 - 0.01 * index, 0.5)),
    rim: () => keep('rim', renderRim),
    tom: (index) => keep(`tom${index}`, (r) => renderSkin(r, [165, 125, 92][index], 0.13, 0.35)),
    crash: () => keep('crash', renderCrash),
    reverseCrash: (duration) => keep(`reverse${rounded(duration)}`, (r) => renderReverseCrash(r, rounded(duration))),
    bass: (note, duration) =>
      keep(`bass${note}/${rounded(duration)}`, (r) => renderBass(BASSES[bass], note, rounded(duration), r)),
    chord: (use, notes, duration) =>
      keep(`${keys[use]}${notes.join(',')}/${rounded(duration)}`, (r) =>
        renderChord(CHORDS[keys[use]], notes, rounded(duration), r),
      ),
    pluck: (note, duration) =>
      keep(`pluck${note}/${rounded(duration)}`, (r) => renderPluck(note, rounded(duration), hardness, r)),
    lead: (note, duration) => keep(`lead${note}/${rounded(duration)}`, (r) => renderLead(note, rounded(duration), r)),
    syllable: (syllable) => {
      const whole = { ...syllable, duration: rounded(syllable.duration) };
      return keep(`sung${Object.values(whole).join('/')}`, (r) => renderSyllable(whole, style.voice.size, r));
    },
    riser: (duration) => keep(`riser${rounded(duration)}`, (r) => renderRiser(rounded(duration), r)),
    fall: (duration) => keep(`fall${rounded(duration)}`, (r) => renderFall(rounded(duration), r)),
    boom: () => keep('boom', renderBoom),
  };
}
