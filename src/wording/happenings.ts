import type { Change, Layer, SectionFunction } from '../units/index.js';
import { LAYERS } from '../units/index.js';
import { wordsOf, type Speech } from './languages.js';

/** A layer that enters or leaves. */
export interface LayerChange {
  readonly layer: Layer;
  readonly change: Change;
}

/**
 * What enters and leaves, in few words; kick and percussion together are the drums.
 * @example changeWords([{ layer: 'bass', change: 'enters' }]) // ['bass in']
 */
export function changeWords(events: readonly LayerChange[], language: Speech = 'en'): string[] {
  const words = wordsOf(language);
  const out: string[] = [];
  for (const change of ['enters', 'leaves'] as const) {
    const layers = LAYERS.filter((l) => events.some((e) => e.layer === l && e.change === change));
    const drums = layers.includes('kick') && layers.includes('percussion');
    if (layers.length === LAYERS.length) {
      out.push(words.change(words.everything, words.changes[change]));
      continue;
    }
    if (drums) out.push(words.change(words.drums, words.changes[change]));
    for (const l of layers)
      if (!(drums && (l === 'kick' || l === 'percussion')))
        out.push(words.change(words.layers[l], words.changes[change]));
  }
  return out;
}

/**
 * What happens on a one: the section that starts there, if one does, and what enters and leaves.
 * @param section the function of a section that starts here, null where none does
 * @example onTheOne('breakdown', [{ layer: 'kick', change: 'leaves' }]) // 'breakdown: kick out'
 */
export function onTheOne(
  section: SectionFunction | null,
  events: readonly LayerChange[],
  language: Speech = 'en',
): string {
  const words = wordsOf(language);
  const changes = changeWords(events, language).join(', ');
  if (section === null) return changes;
  const head = section === 'drop' ? words.dropLands : words.functions[section];
  return changes === '' ? head : `${head}: ${changes}`;
}
