import { expect, test, vi } from 'vitest';
import { openDocument } from '../../reports/layout/document.js';
import { gatherBytes } from '../../reports/layout/gather.js';
import { planCard } from '../../reports/card/plan.js';
import { CARD_PAPERS } from '../../reports/layout/paper.js';
import { styleOf } from '../../reports/theme/index.js';
import { VARIANTS } from '../ladder/variants.js';

test('bytes come back in order, however they were cut', () => {
  const gathered = gatherBytes();
  const every = Uint8Array.from({ length: 3_500_000 }, (_, i) => (i * 31) % 251);
  const sizes = [1, 0, 1_048_576, 7, 2_097_152, 300];
  let from = 0;
  for (const size of [...sizes, every.length - sizes.reduce((a, b) => a + b)]) {
    gathered.add(every.slice(from, from + size));
    from += size;
  }
  expect(gathered.bytes().equals(every)).toBe(true);
  expect(gatherBytes().bytes()).toHaveLength(0);
});

test('a page gets its operators in one piece: thousands of arrays would outlive it', async () => {
  const style = styleOf(undefined, undefined);
  const piece = await openDocument({ title: 'One page', language: 'en' });
  const plan = planCard(VARIANTS.plain(), { paper: CARD_PAPERS.A6, type: piece.type, style, back: true });
  piece.addPage(CARD_PAPERS.A6);
  const write = vi.spyOn(piece.doc.page as unknown as { write: (chunk: string) => void }, 'write');
  const section = piece.surface.open(piece.root, 'Sect', plan.name);
  plan.pages[0]({ surface: piece.surface, style, section, x: 0, y: 0 });
  piece.surface.close(section);
  await piece.finish();
  expect(write.mock.calls.length).toBe(1);
  expect(write.mock.calls[0][0].split('\n').length).toBeGreaterThan(500);
});
