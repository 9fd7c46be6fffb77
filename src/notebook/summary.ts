import { basename } from 'node:path';
import type { TrackAnalysis } from '../track/index.js';
import { clock } from '../units/index.js';
import { keyName, tempoReading, withDoubt } from '../wording/index.js';
import type { Display } from './ready.js';
import { escapeHtml } from './markup.js';

/** The name of a track: artist and title, or the file's name where the tags are silent. @experimental */
export function trackName({ source }: TrackAnalysis): string {
  const { artist, title } = source.tags;
  if (title === null) return basename(source.file);
  return artist === null ? title : `${artist} – ${title}`;
}

/**
 * What is found out about a track, in a few lines: tempo, metre, key, length, phrase one, form, and what is odd.
 * @experimental
 */
export function trackSummary(analysis: TrackAnalysis): Display {
  const facts = factsOf(analysis);
  const oddities = analysis.irregularities.map((i) => withDoubt(i.explanation.replace(/\.$/, ''), i.confidence));
  const warnings = analysis.source.warnings.map(({ message }) => message);
  const name = trackName(analysis);
  const list = (items: readonly string[]) => `<ul>${items.map((item) => `<li>${escapeHtml(item)}</li>`).join('')}</ul>`;
  const rows = facts.map(
    ([term, value]) => `<dt><strong>${escapeHtml(term)}</strong></dt><dd>${escapeHtml(value)}</dd>`,
  );
  const html = [
    `<div class="barwise summary"><h3>${escapeHtml(name)}</h3>`,
    `<dl style="display:grid;grid-template-columns:max-content auto;gap:2px 16px;margin:0">${rows.join('')}</dl>`,
    oddities.length > 0 ? `<p>Where it leaves its own pattern:</p>${list(oddities)}` : '',
    warnings.length > 0 ? `<p>About the file:</p>${list(warnings)}` : '',
    '</div>',
  ].join('');
  const plain = [name, ...facts.map(([term, value]) => `${term}: ${value}`), ...oddities, ...warnings].join('\n');
  return { bundle: { 'text/html': html, 'text/plain': plain } };
}

function factsOf(analysis: TrackAnalysis): [string, string][] {
  const { tempo, metre, key, source, bars, phrases, sections, loudness } = analysis;
  const facts: [string, string][] = [
    ['Tempo', withDoubt(`${tempoReading(analysis)} BPM, ${STEADY[tempo.steadiness]}`, tempo.confidence)],
    ['Metre', withDoubt(`${metre.beatsPerBar} beats to the bar`, metre.confidence)],
  ];
  if (key.tonic !== null && key.mode !== null)
    facts.push(['Key', withDoubt(keyName(key.tonic, key.mode), key.confidence)]);
  facts.push(['Length', `${clock(source.durationSeconds, 0)}, ${bars.length} bars, ${phrases.length} phrases`]);
  const first = bars.find(({ number }) => number >= Math.max(1, phrases[0]?.startBar ?? Infinity));
  if (first) {
    const pickUp = first.number > phrases[0].startBar ? ', after a pick-up' : '';
    facts.push(['First phrase one', `${clock(first.start, 2)} (bar ${first.number}${pickUp})`]);
  }
  facts.push(['Usual phrase', `${analysis.phraseBars} bars, ${analysis.phraseBars * metre.beatsPerBar} beats`]);
  facts.push(['Form', sections.map((s) => `${s.function} ${s.endBar - s.startBar + 1}`).join(' · ')]);
  if (loudness.integratedLufs !== null)
    facts.push(['Loudness', `${loudness.integratedLufs.toFixed(1).replace('-', '−')} LUFS`]);
  return facts;
}

const STEADY: Readonly<Record<TrackAnalysis['tempo']['steadiness'], string>> = {
  constant: 'constant',
  steps: 'in steps',
  drifting: 'drifting',
  free: 'free',
};
