import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBox, type Box } from '../../docs/box.js';
import { pagesWithSamples, shortened } from '../../docs/samples.js';

describe.each(pagesWithSamples())('the samples of $page.file', ({ samples }) => {
  let box: Box;
  beforeAll(() => {
    box = openBox();
  });
  afterAll(() => box.close());

  for (const sample of samples) {
    const name = `line ${sample.line}: ${sample.code.split('\n')[0]}`;
    if (sample.notRun !== null) it.skip(`${name} (not run: ${sample.notRun})`);
    else if (sample.output === null) it(`${name} runs`, () => void box.run(sample));
    else {
      const shown = sample.output.code;
      it(`${name} prints what the page shows`, () => {
        expect(shortened(box.run(sample), shown)).toBe(shown.trim());
      });
    }
  }
});
