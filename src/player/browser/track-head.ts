import { clock } from '../../units/index.js';
import type { TrackView } from '../view.js';
import { doubtQuestion, doubtWord, keyName, tempoDoubt } from '../../wording/index.js';
import { html } from './dom.js';
import { titleOf } from './state.js';
import { count } from './words.js';

/** Title, tempo, key, length and usual phrase of a track, with the doubt there is. */
export function drawTrackHead(host: HTMLElement, view: TrackView, speed: number): void {
  const { analysis } = view;
  const { tempo, key, metre, source } = analysis;
  const doubt = tempoDoubt(analysis);
  const heard = speed === 100 ? '' : ` · ${(tempo.bpm * (speed / 100)).toFixed(2)} at ${speed} %`;
  const facts: [string, string][] = [
    [
      'Tempo',
      `${tempo.bpm.toFixed(2)} BPM${heard}${doubt ? ` · ${doubtQuestion(doubt)}` : ''}${tempoManner(tempo.steadiness)}`,
    ],
    ['Key', key.tonic && key.mode ? `${keyName(key.tonic, key.mode)} · ${doubtWord(key.confidence)}` : 'not sure'],
    ['Length', clock(source.durationSeconds, 0)],
    [
      'Phrases',
      `mostly ${count(analysis.phraseBars, 'bar')}${metre.beatsPerBar === 4 ? '' : ` of ${metre.beatsPerBar} beats`}`,
    ],
  ];
  const odd = analysis.irregularities.length;
  const places = html('a', { href: '#breaks' }, [odd === 0 ? 'nowhere' : `in ${count(odd, 'place')}`]);
  host.replaceChildren(
    html('h1', {}, [titleOf(view)]),
    html('p', { class: 'artist' }, [source.tags.artist ?? '']),
    html('dl', { class: 'facts' }, [
      ...facts.map(([name, value]) => fact(name, value)),
      fact('Out of pattern', places),
    ]),
    ...source.warnings.map((w) => html('p', { class: 'notice' }, [w.message])),
  );
}

function fact(name: string, value: string | Node): HTMLElement {
  return html('div', {}, [html('dt', {}, [name]), html('dd', {}, [value])]);
}

function tempoManner(steadiness: TrackView['analysis']['tempo']['steadiness']): string {
  return { constant: '', steps: ' · changes', drifting: ' · drifts', free: ' · free' }[steadiness];
}
