import { describe, expect, it } from 'vitest';
import { phraseFunctions } from '../../src/form/functions.js';
import { SECTION_FUNCTIONS, type SectionFunction } from '../../src/units/index.js';

/** Phrases that sound like `likely` and nothing else in their surroundings. */
function chain(likely: readonly SectionFunction[]) {
  const none = SECTION_FUNCTIONS.map(() => SECTION_FUNCTIONS.map(() => 0));
  return {
    own: likely.map((f) => SECTION_FUNCTIONS.map((name) => (name === f ? 4 : name === 'main' ? 2 : 0))),
    step: likely.map(() => none),
  };
}
const free = (likely: readonly unknown[]) => likely.map(() => null);

// Common practice, no source: an intro leads into something, an outro leads out of something.
describe('what phrases do', () => {
  it('follows what they sound like', () => {
    const likely: SectionFunction[] = ['intro', 'build-up', 'drop', 'outro'];
    expect(phraseFunctions(chain(likely), free(likely)).functions).toEqual(likely);
  });

  it('calls no opening an outro and no ending an intro', () => {
    const likely: SectionFunction[] = ['outro', 'drop', 'intro'];
    expect(phraseFunctions(chain(likely), free(likely)).functions).toEqual(['main', 'drop', 'main']);
  });

  it('calls a loop that is all one section neither', () => {
    for (const f of ['intro', 'outro'] as const) {
      const likely = [f, f, f];
      expect(phraseFunctions(chain(likely), free(likely), [false, true, true]).functions).toEqual([
        'main',
        'main',
        'main',
      ]);
      expect(phraseFunctions(chain([f]), [null]).functions).toEqual(['main']);
    }
  });

  it('takes a person at their word', () => {
    expect(phraseFunctions(chain(['main']), ['outro']).functions).toEqual(['outro']);
    expect(phraseFunctions(chain(['main', 'main']), ['outro', 'intro']).functions).toEqual(['outro', 'intro']);
  });
});
