import { HEARING_CAUTION } from '../../practice/index.js';
import { escapeHtml } from '../escape.js';

/** Keys of the page; which of them answer depends on the drill. */
const KEYS: readonly (readonly [string, string])[] = [
  ['Space', 'play the question; again to hear it anew'],
  ['Esc', 'silence'],
  ['1 2 3', 'answer, where there are answers to choose from'],
  ['N', 'say "one", where the answer is a tap'],
  ['Enter', 'the next question'],
  ['↑ ↓', 'louder and softer'],
];

/** The frame of a drill's page; the script fills it. Nothing in it comes from a file. */
export const DRILL_BODY = `
<header class="top"><p class="brand">Barwise</p></header>
<main>
<h1 id="title"></h1>
<p id="instruction"></p>
<noscript><p class="notice">This page plays its questions by itself, and needs JavaScript for it. It loads nothing from the network.</p></noscript>
<aside class="caution" aria-labelledby="caution-title">
<h2 id="caution-title">Mind your ears</h2>
<p>${escapeHtml(HEARING_CAUTION)} The page starts at a moderate volume, and no sound in it is louder than full volume here
makes it: its level was limited as it was made.</p>
</aside>
<section id="drill" aria-label="Drill">
<p class="place"><span id="place"></span> <span id="marks" aria-hidden="true"></span></p>
<p id="question"></p>
<div class="row">
<button id="play" class="play" type="button"><span id="play-word">Play</span> <kbd>Space</kbd></button>
<label class="slider">Volume <output id="volume-out" for="volume">40 %</output>
<input id="volume" type="range" min="0" max="100" step="1" value="40"></label>
</div>
<div class="progress" aria-hidden="true"><i id="progress"></i></div>
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
<dl>${KEYS.map(([key, what]) => `<div><dt><kbd>${key}</kbd></dt><dd>${what}</dd></div>`).join('')}</dl>
</section>
</main>`;
