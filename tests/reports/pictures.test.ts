import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { PNG } from 'pngjs';
import { describe, expect, test } from 'vitest';
import { planCard } from '../../reports/card/plan.js';
import type { Canvas } from '../../reports/layout/canvas.js';
import { openDocument } from '../../reports/layout/document.js';
import { loadFaces } from '../../reports/layout/fonts.js';
import { CARD_PAPERS, LESSON_PAPERS, WORKSHEET_PAPERS, type Paper } from '../../reports/layout/paper.js';
import { openPicture, toPng } from '../../reports/layout/picture.js';
import { planComparison } from '../../reports/lesson/compare.js';
import { planLesson } from '../../reports/lesson/single.js';
import { styleOf } from '../../reports/theme/index.js';
import { planKey, planQuestions } from '../../reports/worksheet/plan.js';
import { questionsAbout } from '../../reports/worksheet/questions.js';
import { VARIANTS } from '../ladder/variants.js';

/** Width of the pictures: enough to see every rung and to keep the files small. */
const PIXELS = 320;
/** Mean difference of grey levels, of 255, up to which two pictures are the same: rasterising may round otherwise. */
const SAME = 0.4;

const style = styleOf();
const german = styleOf({ language: 'de', inkSaving: true });
const plain = VARIANTS.plain();

type Draw = (canvas: Canvas) => void;
const PIECES: Readonly<Record<string, readonly [Paper, (type: Canvas['surface']['type']) => Draw, typeof style]>> = {
  'card-front': [
    CARD_PAPERS.A6,
    (type) => planCard(plain, { paper: CARD_PAPERS.A6, type, style, back: true }).pages[0],
    style,
  ],
  'card-back': [
    CARD_PAPERS.A6,
    (type) => planCard(plain, { paper: CARD_PAPERS.A6, type, style, back: true }).pages[1],
    style,
  ],
  'card-3x5-german': [
    CARD_PAPERS['3x5in'],
    (type) =>
      planCard(VARIANTS['half-time'](), { paper: CARD_PAPERS['3x5in'], type, style: german, back: true }).pages[0],
    german,
  ],
  lesson: [LESSON_PAPERS.A4, (type) => planLesson(plain, LESSON_PAPERS.A4, type, style).pages[0], style],
  comparison: [
    LESSON_PAPERS.A4,
    (type) => planComparison([plain, VARIANTS.eights()], LESSON_PAPERS.A4, type, style).pages[0],
    style,
  ],
  worksheet: [
    WORKSHEET_PAPERS.A4,
    (type) =>
      planQuestions(plain, questionsAbout(plain, style, 1, 6, 1), {
        paper: WORKSHEET_PAPERS.A4,
        type,
        style,
        level: 1,
      })[0],
    style,
  ],
  'answer-key': [
    WORKSHEET_PAPERS.A4,
    (type) =>
      planKey(plain, questionsAbout(plain, style, 3, 6, 1), { paper: WORKSHEET_PAPERS.A4, type, style, level: 3 })[0],
    style,
  ],
};

describe.each(Object.entries(PIECES))('%s', (name, [paper, plan, look]) => {
  test('looks as it was last looked at', async () => {
    const { type } = await openDocument({ title: name, language: 'en' });
    const picture = openPicture(paper, look.colours.paper, type, await loadFaces());
    plan(type)({ surface: picture.surface, style: look, section: null, x: 0, y: 0 });
    const png = PNG.sync.read(await toPng(picture.svg(name, '', 'en'), PIXELS));
    const file = new URL(`pictures/${name}.png`, import.meta.url);
    if (!existsSync(file) || process.env.UPDATE_PICTURES === '1') {
      expect(process.env.CI, `${name}.png is not there: make it with UPDATE_PICTURES=1 and look at it`).toBeUndefined();
      writeFileSync(file, PNG.sync.write(png, { colorType: 0, inputColorType: 6, inputHasAlpha: true }));
    }
    const before = PNG.sync.read(readFileSync(file));
    expect([png.width, png.height]).toEqual([before.width, before.height]);
    const now = PNG.sync.read(PNG.sync.write(png, { colorType: 0, inputColorType: 6, inputHasAlpha: true }));
    let difference = 0;
    for (let i = 0; i < now.data.length; i += 4) difference += Math.abs(now.data[i] - before.data[i]);
    expect(difference / (now.data.length / 4)).toBeLessThan(SAME);
  });
});
