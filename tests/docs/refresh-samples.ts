import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openBox } from './box.js';
import { ROOT } from './pages.js';
import { pagesWithSamples, shortened } from './samples.js';

// Runs the samples of the pages that are named (all of them, when none is) and writes into the pages what they print.
const wanted = process.argv.slice(2);
for (const { page, samples } of pagesWithSamples()) {
  if (wanted.length > 0 && !wanted.includes(page.file)) continue;
  const box = openBox();
  try {
    const lines = readFileSync(join(ROOT, page.file), 'utf8').split('\n');
    const blocks = samples.map((sample) => {
      if (sample.notRun !== null) return null;
      console.log(`${page.file}:${sample.line}  ${sample.code.split('\n')[0]}`);
      const printed = box.run(sample);
      return sample.output && { ...sample.output, now: shortened(printed, sample.output.code) };
    });
    // From the last to the first, so that the lines before stay where they are.
    for (const block of blocks.reverse()) {
      if (!block) continue;
      const length = block.code.split('\n').length - 1;
      lines.splice(block.line, length, ...block.now.split('\n'));
    }
    writeFileSync(join(ROOT, page.file), lines.join('\n'));
  } finally {
    box.close();
  }
}
