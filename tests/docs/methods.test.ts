import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BOUNDARY_CUES } from '../../src/form/boundary-cues.js';
import { FUNCTION_CUES } from '../../src/form/function-cues.js';
import { LAYER_CUES } from '../../src/form/layer-cues.js';
import { PRESENCE_WEIGHTS } from '../../src/form/weights/index.js';
import { LONGEST_SECTION } from '../../src/form/lengths.js';
import { PICK_UP_CUES } from '../../src/form/pick-up-cues.js';
import { GROUPS } from '../../src/form/steps.js';
import { STRUCK_CUES } from '../../src/form/struck-cues.js';
import { EVIDENCE } from '../../src/rhythm/bar-path.js';
import { ODD_BAR_CUES } from '../../src/rhythm/odd-bar-cues.js';
import { BOUNDARY_SCALES, LENGTH_COSTS } from '../../src/form/weights/index.js';
import { CALIBRATIONS, DOWNBEAT_WEIGHTS, LEVEL_WEIGHTS, PHASE_WEIGHTS, SUREST } from '../../src/learned/index.js';
import { EXACT_UP_TO, FADER_RANGE } from '../../src/matching/index.js';
import { HIGHEST_PEAK, LOUDEST, USUAL_LOUDNESS } from '../../src/practice/index.js';
import { ONSET_BANDS } from '../../src/rhythm/index.js';
import { TEMPO_RANGE } from '../../src/rhythm/tempo-candidates.js';
import { BAND_COUNT, CHROMA, COARSE, FRONT_END_ID } from '../../src/signal/index.js';
import { ROOT } from './pages.js';

/** A page of the methods without line breaks, thousands without commas, minus signs as ASCII. */
function methods(name: string): string {
  const text = readFileSync(join(ROOT, 'docs', 'methods', `${name}.md`), 'utf8');
  return text
    .replace(/\s+/g, ' ')
    .replace(/(\d),(\d{3})/g, '$1$2')
    .replaceAll('−', '-');
}

const { phrase, section, stub, edge, usual } = LENGTH_COSTS;
const { phrase: sure } = CALIBRATIONS;

/** What a page says of a number, made from the code's own constant. */
const SAID: Readonly<Record<string, readonly string[]>> = {
  curves: [
    `${COARSE.window}-sample Hann frames`,
    `in ${BAND_COUNT} bands`,
    `now \`${FRONT_END_ID}\``,
    `${CHROMA.window}-sample frames`,
    `| ${CHROMA.rate} | 12 |`,
    `${CHROMA.lowest} to ${CHROMA.highest} Hz`,
  ],
  'fitted-scores': [
    `| beat: phase, level | ${PHASE_WEIGHTS.weights.length} each |`,
    `| downbeat | ${DOWNBEAT_WEIGHTS.weights.length} (`,
    `| layers, one set each | ${PRESENCE_WEIGHTS.kick.weights.length} or ${PRESENCE_WEIGHTS.bass.weights.length} |`,
    `| boundaries: phrase, section | ${BOUNDARY_CUES.length} each |`,
    `| functions | ${FUNCTION_CUES.length} a function`,
    `| pick-ups | ${PICK_UP_CUES.length} |`,
    `bar without drums | ${STRUCK_CUES.length} |`,
    `| odd bars | ${ODD_BAR_CUES.length} |`,
    `${sure.slope} · log-odds + ${sure.offset}, kept within ${(1 - SUREST).toFixed(3)} … ${SUREST}`,
  ],
  beats: [
    ONSET_BANDS.map((band) => band.join('–')).join(', '),
    `Tempos from ${TEMPO_RANGE[0]} to ${TEMPO_RANGE[1]} BPM`,
    `${LEVEL_WEIGHTS.weights.length} cues describe a reading`,
  ],
  bars: [
    `${DOWNBEAT_WEIGHTS.weights.length} inputs`,
    `judged by ${ODD_BAR_CUES.length} cues`,
    `in nats, ${EVIDENCE} a unit of evidence`,
  ],
  layers: [
    `in ${GROUPS} groups of bands`,
    `${LAYER_CUES.length} cues`,
    `is taken three times (${PRESENCE_WEIGHTS.kick.weights.length})`,
  ],
  phrases: [
    `${BOUNDARY_CUES.length} cues a bar`,
    `${FUNCTION_CUES.length} cues a phrase`,
    `(${PICK_UP_CUES.length} cues)`,
    `by ${STRUCK_CUES.length} cues`,
    `(${BOUNDARY_SCALES.phraseScale} · odds - ${-BOUNDARY_SCALES.phraseBias})`,
    `(${BOUNDARY_SCALES.sectionScale} · odds + ${BOUNDARY_SCALES.sectionBias})`,
    `| half of it | ${phrase.half} |`,
    `| ${phrase.four}; ${phrase.longer} |`,
    `| ${phrase.even}; ${phrase.odd} |`,
    `| ${stub} more |`,
    `| ${edge} of that`,
    `| ${section.short}; ${section.four}; ${section.other} |`,
    `| ${usual.join(', ')} |`,
    `(up to ${LONGEST_SECTION} bars`,
  ],
  matching: [`(±${FADER_RANGE * 100} % unless told)`, `Up to ${EXACT_UP_TO} tracks`],
  practice: [`${USUAL_LOUDNESS} LUFS unless told otherwise, ${LOUDEST} at most`, `at or under ${HIGHEST_PEAK} dBTP`],
};

describe('the methods name the numbers that the code has', () => {
  for (const [name, phrases] of Object.entries(SAID))
    for (const said of phrases) it(`${name}: ${said}`, () => expect(methods(name)).toContain(said));
});
