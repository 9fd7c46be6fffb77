import type { EvidenceWords } from '../evidence.js';
import { CORE } from './core.js';

/** What each named number means. */
export const EVIDENCE: EvidenceWords = {
  core: CORE,
  times: (count) => `${count}-mal`,
  known: {
    startShare: (v) => `der Beginn der Phrase ist zu ${v} sicher`,
    endShare: (v) => `der Beginn der nächsten zu ${v}`,
    levelDecibels: (v) => `der Pegel der fraglichen Takte liegt ${v} gegen die davor`,
    onsetRatio: (v) => `Klänge setzen in ihnen ${v} so oft ein`,
    pickUpShare: (v) => `dass etwas zu früh einsetzt, ist zu ${v} sicher`,
    phraseStartShare: (v) => `dass die Phrase auf der Eins beginnt, ist zu ${v} sicher`,
    gainNats: (v) => `die Takte danach passen so ${v} besser als gerade durchgezählt`,
    barBeats: (v) => `${v} darin`,
    beatsBefore: (v) => `${v} im Tempo davor`,
    beatsAfter: (v) => `${v} im neuen`,
    spreadMilliseconds: (v) => `einzelne Schläge streuen um ${v}`,
    windowBeats: (v) => `Tempo gemessen über ${v}`,
    thirdBeatOverSecondAndFourth: (v) => `Schlag 3 ist ${v} so kräftig wie Schlag 2 und 4`,
    snareOnThreeRatio: (v) =>
      `die Snare auf Schlag 3 ist gegen Schlag 2 und 4 ${v} so kräftig wie in den anderen Phrasen`,
    struckShare: (v) => `dass dort doch Drums schlagen, ist zu ${v} sicher`,
    offMilliseconds: (v) => `ohne den Wechsel lägen die Schläge am Ende ${v} daneben`,
    wanderMilliseconds: (v) => `die Schläge wandern darin um ${v}`,
    drumShare: (v) => `Drums machen dort ${v} des Klangs aus`,
    bars: (v) => `Dauer: ${v}`,
  },
};
