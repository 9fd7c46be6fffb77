import type { EvidenceWords } from '../evidence.js';
import { CORE } from './core.js';

/** What each named number means. */
export const EVIDENCE: EvidenceWords = {
  core: CORE,
  times: (count) => `${count} times`,
  known: {
    startShare: (v) => `the start of the phrase is ${v} sure`,
    endShare: (v) => `the start of the next one ${v}`,
    levelDecibels: (v) => `the bars in question are ${v} in level against those before`,
    onsetRatio: (v) => `sounds begin in them ${v} as often`,
    pickUpShare: (v) => `that something starts early is ${v} sure`,
    phraseStartShare: (v) => `that the phrase starts on the one is ${v} sure`,
    gainNats: (v) => `the bars after it fit ${v} better so than counted straight on`,
    barBeats: (v) => `${v} in it`,
    beatsBefore: (v) => `${v} at the tempo before`,
    beatsAfter: (v) => `${v} at the new one`,
    spreadMilliseconds: (v) => `single beats scatter by ${v}`,
    windowBeats: (v) => `tempo taken over ${v}`,
    thirdBeatOverSecondAndFourth: (v) => `beat 3 is struck ${v} as hard as beats 2 and 4`,
    snareOnThreeRatio: (v) =>
      `the snare on beat 3 is ${v} as strong beside beats 2 and 4 as in the track's other phrases`,
    struckShare: (v) => `that drums strike there after all is ${v} sure`,
    offMilliseconds: (v) => `without the change the beats would come to lie ${v} off`,
    wanderMilliseconds: (v) => `the beats wander by ${v} within that`,
    drumShare: (v) => `drums make up ${v} of what is heard there`,
    bars: (v) => `it lasts ${v}`,
  },
};
