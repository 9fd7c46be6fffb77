/** Shown where the player is, and on every page: the usual caution of the trade. */
const CAUTION = `
<aside class="caution" aria-labelledby="caution-title">
<h2 id="caution-title">Mind your ears</h2>
<p>Set the level before you press play: turn headphones and monitors down first, then up to where you can still talk over them.
Loud sound harms hearing before it hurts, and a click in headphones is easily set too loud. As a yardstick, WHO and ITU take
80&nbsp;dB(A) for 40&nbsp;hours a week as the limit for adults (Recommendation ITU-T&nbsp;H.870); less for children. Rest your
ears, keep to the rules where you play, and ask a qualified person (an audiologist, an occupational health service) if they
ring or feel dull. The page starts at a moderate volume and the count tick stays well below full level.</p>
</aside>`;

const KEYS: readonly (readonly [string, string])[] = [
  ['Space', 'play and pause'],
  ['← →', 'one bar back and on'],
  ['↑ ↓', 'to the phrase one before and the next'],
  ['1 … 9', 'to phrase 1 … 9'],
  ['Home', 'to the first bar'],
  ['L', 'loop this phrase; again to let it go on'],
  ['− +', 'slower and faster by 1 %'],
  ['0', 'original speed'],
  ['M', 'mute'],
  ['T', 'count tick on and off'],
  ['P', 'tap-along practice: start and end'],
  ['N', 'tap, while you practise; Enter does as well'],
  ['[ ]', 'the track before and the next'],
  ['?', 'this list'],
];

const KEY_LIST = `
<dialog id="keys" aria-labelledby="keys-title">
<h2 id="keys-title">Keys</h2>
<dl>${KEYS.map(([key, what]) => `<div><dt><kbd>${key}</kbd></dt><dd>${what}</dd></div>`).join('')}</dl>
<p>A click on a bar of the ladder jumps to its one; a click beside a rung jumps to phrase one.</p>
<form method="dialog"><button type="submit">Close</button></form>
</dialog>`;

/** The frame of the page; the script fills it. Nothing in it comes from a file. */
export const PAGE_BODY = `
<a class="skip" href="#stand">Skip to the player</a>
<header class="top">
<p class="brand">Barwise</p><p id="crate-title"></p>
<a id="to-crate" href="#crate">Tracks</a>
<button id="keys-open" type="button" aria-haspopup="dialog">Keys <kbd>?</kbd></button>
</header>
<noscript><p class="notice">This page counts along with the music, and needs JavaScript for it. It loads nothing from the network.</p></noscript>
<div class="layout">
<nav class="crate" aria-label="Crate"><ol id="crate"></ol></nav>
<main>
<header class="track" id="track-head"></header>
<section class="stand" id="stand" aria-label="Player" tabindex="-1">
<div class="count" id="count" role="timer" aria-live="off" aria-label="Count">
<p class="figures" aria-hidden="true"><span id="group-bar">–</span><i>·</i><span id="beat">–</span></p>
<div class="group" id="group" aria-hidden="true"></div>
</div>
<div class="where">
<p id="where-bar"></p><p id="where-left"></p><p id="where-next"></p>
</div>
<div class="controls" role="group" aria-label="Playing">
<button id="play" class="play" type="button"><span id="play-mark" aria-hidden="true"></span><span id="play-word">Play</span></button>
<button id="back" type="button" title="Phrase one before (↑)">‹ phrase</button>
<button id="on" type="button" title="Next phrase one (↓)">phrase ›</button>
<button id="loop" type="button" aria-pressed="false" title="Loop this phrase (L)">Loop phrase</button>
<button id="tick" type="button" aria-pressed="false" title="Count tick (T)">Count tick</button>
<label class="slider">Speed <output id="speed-out" for="speed">100 %</output>
<input id="speed" type="range" min="50" max="150" step="0.5" value="100"></label>
<label class="slider">Volume <output id="volume-out" for="volume">40 %</output>
<input id="volume" type="range" min="0" max="100" step="1" value="40"></label>
</div>
<p class="notice" id="trouble" role="alert" hidden></p>
</section>
<section class="practice" id="practice" aria-labelledby="practice-title">
<h2 id="practice-title">Tap along</h2>
<div class="row">
<button id="practice-start" type="button" aria-pressed="false"><span id="practice-start-word">Practise</span> <kbd>P</kbd></button>
<fieldset><legend>Tap on every</legend>
<label><input type="radio" name="practice-target" value="phrase" checked> phrase one</label>
<label><input type="radio" name="practice-target" value="group"> group one</label></fieldset>
<label><input type="checkbox" id="practice-cover" checked> cover the count</label>
</div>
<div class="row">
<button id="practice-tap" type="button" disabled><span id="practice-what">phrase one</span> <kbd>N</kbd></button>
<p id="practice-last" aria-live="polite"></p>
</div>
<div id="practice-result" aria-live="polite"></div>
<button id="practice-delay" type="button" hidden></button>
</section>
<section class="doubt" id="doubt" aria-label="Doubt about the tempo" hidden></section>
<section class="ladder" aria-label="Ladder"><div id="ladder"></div></section>
<section class="breaks" id="breaks" aria-label="Where the track leaves its pattern"></section>
${CAUTION}
</main>
</div>
<p class="unseen" id="say" aria-live="polite"></p>
<audio id="audio" preload="metadata"></audio>
${KEY_LIST}`;
