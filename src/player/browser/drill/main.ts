import type { DrillData } from '../../drill/data.js';
import { judge, scoreWords, type GivenAnswer, type Verdict } from '../../drill/verdict.js';
import { byId, html, setText } from '../dom.js';
import { listenToDrillKeys } from './keys.js';
import { createSound } from './sound.js';

const data = JSON.parse(byId('barwise-data').textContent ?? '') as DrillData;
const isTap = data.questions[0]?.reply.kind === 'tap';
const sound = createSound();
const volume = byId<HTMLInputElement>('volume');
let verdicts: Verdict[] = [];
/** The question that is asked; one past the last when the score is shown. */
let at = 0;
/** A tap that is told of only when the track is back. */
let tapped: GivenAnswer = null;
let wasHeard = false;

const title = data.title.replace(/^Drill: /, '');
setText(byId('title'), title.charAt(0).toUpperCase() + title.slice(1));
setText(byId('instruction'), data.instruction);
const answers = isTap
  ? [html('button', { type: 'button', class: 'tap' }, ['one! ', html('kbd', {}, ['N'])])]
  : data.choices.map((choice, i) => html('button', { type: 'button' }, [`${choice} `, html('kbd', {}, [`${i + 1}`])]));
byId('answers').replaceChildren(...answers);

const isAnswered = () => verdicts.length > at;
const isOver = () => at >= data.questions.length;

function show(): void {
  const of = data.questions.length;
  byId('drill').hidden = isOver();
  byId('result').hidden = !isOver();
  if (isOver()) return showResult();
  const verdict = verdicts[at];
  setText(byId('place'), `Question ${at + 1} of ${of}`);
  setText(byId('marks'), data.questions.map((_, i) => markOf(i)).join(' '));
  setText(byId('question'), data.questions[at].question);
  setText(byId('play-word'), sound.isPlaying || wasHeard ? 'Play again' : 'Play');
  for (const button of answers) button.disabled = isAnswered() || !wasHeard || tapped !== null;
  const line = byId('verdict');
  line.className = verdict ? (verdict.isRight ? 'right' : 'wrong') : '';
  setText(line, verdict ? verdictWords(verdict) : tapped ? 'Heard. Wait for the track.' : '');
  byId('next').hidden = !verdict;
  setText(byId('next-word'), at + 1 < of ? 'Next question' : 'Score');
}

function markOf(i: number): string {
  if (verdicts[i]) return verdicts[i].isRight ? '✓' : '✗';
  return i === at ? '●' : '○';
}

function verdictWords({ isRight, told }: Verdict): string {
  const { answer } = data.questions[at];
  const by = told === '' ? '' : ` (${told})`;
  return isRight ? `Right${by}: ${answer}.` : `Not right${by}. The answer: ${answer}.`;
}

function showResult(): void {
  setText(byId('score'), scoreWords(verdicts, data.questions.length));
  const wrong = verdicts.flatMap(({ isRight }, i) => (isRight ? [] : [i + 1]));
  setText(byId('score-more'), wrong.length === 0 ? '' : `To hear again: ${wrong.join(', ')}.`);
  byId('sheet').replaceChildren(
    ...verdicts.map(({ isRight, given }, i) =>
      html('tr', { class: isRight ? 'right' : 'wrong' }, [
        html('th', { scope: 'row' }, [`${isRight ? '✓' : '✗'} ${i + 1}`]),
        html('td', {}, [given]),
        html('td', {}, [data.questions[i].answer]),
      ]),
    ),
  );
  byId('result').focus();
}

function give(given: GivenAnswer): void {
  if (isOver() || isAnswered()) return;
  verdicts.push(judge(data, data.questions[at], given));
  tapped = null;
  show();
}

async function play(): Promise<void> {
  if (isOver()) return;
  const mine = at;
  tapped = null;
  try {
    await sound.play(data.questions[at].sound, () => {
      if (at === mine && !isAnswered() && (isTap || tapped)) give(tapped);
      show();
    });
    wasHeard = true;
  } catch {
    byId('trouble').hidden = false;
    setText(byId('trouble'), 'This browser cannot play the sound of the question: open the page in another one.');
  }
  show();
}

function tap(instant: number): void {
  const time = sound.heardAt(instant);
  const reply = data.questions[at]?.reply;
  if (!isTap || time === null || isAnswered() || tapped || reply?.kind !== 'tap') return;
  tapped = { tap: time };
  // told when the track has come back, so that it can be heard against the tap
  window.setTimeout(() => tapped && give(tapped), Math.max(0, reply.at - time + 2 * data.beat) * 1000);
  show();
}

function next(): void {
  if (isOver()) return again();
  if (!isAnswered()) return;
  sound.stop();
  at++;
  wasHeard = false;
  tapped = null;
  show();
}

function again(): void {
  verdicts = [];
  at = 0;
  wasHeard = false;
  show();
}

function changeVolume(value: number): void {
  sound.volume = value;
  volume.value = `${Math.round(sound.volume * 100)}`;
  setText(byId('volume-out'), `${volume.value} %`);
}

byId('play').addEventListener('click', () => void play());
byId('next').addEventListener('click', next);
byId('again').addEventListener('click', again);
volume.addEventListener('input', () => changeVolume(Number(volume.value) / 100));
answers.forEach((button, i) => {
  if (isTap) button.addEventListener('pointerdown', (event) => tap(event.timeStamp));
  else button.addEventListener('click', () => give({ choice: i }));
});
listenToDrillKeys({
  play: () => void play(),
  stop: () => {
    sound.stop();
    tapped = null;
    show();
  },
  next,
  choose: (i) => !isTap && wasHeard && i < data.choices.length && give({ choice: i }),
  tap,
  changeVolume: (by) => changeVolume(sound.volume + by),
});
// how far the sound has gone is not shown where its end would give the one away
const progress = document.getElementById('progress');
const frame = () => {
  if (progress) progress.style.width = `${sound.gone() * 100}%`;
  requestAnimationFrame(frame);
};
if (progress) requestAnimationFrame(frame);
changeVolume(0.4);
show();
