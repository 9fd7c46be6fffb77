import { HEARING_CAUTION, HIGHEST_PEAK } from '../../practice/index.js';
import { escapeHtml } from '../escape.js';

/** What the keys do; the ones to answer by depend on the drill. */
const keysOf = (choices: number): readonly (readonly [string, string])[] => [
  ['Space', 'play the question; again to hear it anew'],
  choices === 0 ? ['N', 'say "one"'] : [Array.from({ length: choices }, (_, i) => `${i + 1}`).join(' '), 'answer'],
  ['Enter', 'the next question'],
  ['Esc', 'silence'],
  ['↑ ↓', 'louder and softer'],
];

/** The frame of a drill's page with so many answers to choose from; the script fills it. Nothing in it comes from a file. */
export const drillBody = (choices: number): string => `
<header class="top"><p class="brand">Barwise</p></header>
<main>
<h1 id="title"></h1>
<p id="instruction"></p>
<noscript><p class="notice">This page plays its questions by itself, and needs JavaScript for it. It loads nothing from the network.</p></noscript>
<aside class="caution" aria-labelledby="caution-title">
<h2 id="caution-title">Before you play</h2>
<p>${escapeHtml(HEARING_CAUTION)} The page starts at a moderate volume; at full volume the sound is as loud as it was made,
with a true peak of at most ${`${HIGHEST_PEAK}`.replace('-', '−')} dBTP.</p>
</aside>
<section id="drill" aria-label="Drill">
<p class="place"><span id="place"></span> <span id="marks" aria-hidden="true"></span></p>
<p id="question"></p>
<div class="row">
<button id="play" class="play" type="button"><span id="play-word">Play</span> <kbd>Space</kbd></button>
<label class="slider">Volume <output id="volume-out" for="volume">40 %</output>
<input id="volume" type="range" min="0" max="100" step="1" value="40"></label>
</div>
${choices === 0 ? '' : '<div class="progress" aria-hidden="true"><i id="progress"></i></div>'}
<div id="answers" class="answers" role="group" aria-label="Answers"></div>
<p id="verdict" role="status"></p>
<button id="next" type="button" hidden><span id="next-word">Next question</span> <kbd>Enter</kbd></button>
<p class="notice" id="trouble" role="alert" hidden></p>
</section>
<section id="result" aria-labelledby="score" tabindex="-1" hidden>
<h2 id="score"></h2>
<p id="score-more"></p>
<table><thead><tr><th scope="col">Question</th><th scope="col">Your answer</th><th scope="col">Right</th></tr></thead>
<tbody id="sheet"></tbody></table>
<button id="again" type="button">Once more from the first <kbd>Enter</kbd></button>
</section>
<section class="keys" aria-labelledby="keys-title">
<h2 id="keys-title">Keys</h2>
<dl>${keysOf(choices)
  .map(([key, what]) => `<div><dt><kbd>${key}</kbd></dt><dd>${what}</dd></div>`)
  .join('')}</dl>
</section>
</main>`;
