import { grooveOf } from './grooves.js';
import type { PercussionPart } from './grooves.js';
import { playFill, silencedFrom } from './fills.js';
import type { Step } from './steps.js';
import type { BarView } from './view.js';

/** Parts that play at a density, in the order of the style. */
function playing(view: BarView): ReadonlySet<PercussionPart> {
  const { order } = view.style;
  const count = Math.max(1, Math.round(view.plan.density * order.length));
  return new Set(order.slice(0, count));
}

function playSkins(view: BarView, until: number): void {
  const random = view.constant.fork('skins');
  const bars = 2;
  for (let step = 0; step < 16 * bars; step++) {
    const chosen = random.next();
    const skin = random.whole(0, 3);
    const level = random.between(0.3, 1);
    const here = Math.floor(step / 16) === (view.bar.phraseBar - 1) % bars;
    const offset = (step % 16) / 4;
    const likely = step % 4 === 0 ? 0.1 : step % 2 === 0 ? 0.3 : 0.36;
    if (!here || chosen > likely || offset >= until) continue;
    const shot = skin === 3 ? view.kit.rim() : view.kit.skin(skin);
    const pan = skin === 3 ? 0.4 : (skin - 1) * 0.45;
    view.hit('drums', shot, offset, { level: 0.24 * level * view.random.between(0.85, 1.1), pan });
  }
}

function playRoll(view: BarView): void {
  const { plan, bar } = view;
  const usual = plan.addedBars > 0 ? plan.bars - plan.addedBars : plan.bars;
  for (let offset = 0; offset < bar.beats; offset += 0.125) {
    const way = (bar.phraseBar - 1 + offset / bar.beats) / usual;
    const every = way < 0.375 ? 1 : way < 0.75 ? 0.5 : way < 1.12 || plan.addedBars <= 0 ? 0.25 : 0.125;
    if (offset % every !== 0) continue;
    const level = (0.2 + 0.38 * Math.min(1, way) ** 1.5) * (offset % 0.5 === 0 ? 1 : 0.75);
    view.hit('room', view.kit.snare('roll'), offset, { level: level * view.random.between(0.9, 1.05) });
  }
}

/** Kick and percussion of a bar, the fill at the end of a phrase included. */
export function playDrums(view: BarView): void {
  const { plan, bar, kit, style, random } = view;
  const groove = grooveOf(style.groove, bar.beats, bar.phraseBar - 1, view.habits.drums, plan.halfTime);
  const silenced = silencedFrom(view);
  const play = (list: readonly Step[], until: number, stroke: (step: Step) => void): void => {
    for (const step of list) if (step[0] < until) stroke(step);
  };
  if (plan.has.kick) {
    play(groove.kick, silenced.kick, ([offset, level]) =>
      view.hit('kick', kit.kick(), offset, { level: 0.74 * level }),
    );
  }
  if (plan.has.percussion) {
    const parts = playing(view);
    const until = silenced.percussion;
    const human = (): number => random.between(0.85, 1.05);
    if (parts.has('closed')) {
      play(groove.closed, until, ([offset, level]) =>
        view.hit('drums', kit.closedHat(random.whole(0, 3)), offset, { level: 0.27 * level * human(), pan: 0.12 }),
      );
    }
    if (parts.has('open')) {
      play(groove.open, until, ([offset, level]) =>
        view.hit('drums', kit.openHat(), offset, { level: 0.3 * level * human() }),
      );
    }
    if (parts.has('back') && !plan.roll) {
      play(groove.back, until, ([offset, level]) => {
        if (style.backbeat !== 'snare') view.hit('room', kit.clap(random.whole(0, 1)), offset, { level: 0.75 * level });
        if (style.backbeat !== 'clap') view.hit('room', kit.snare('back'), offset, { level: 0.58 * level });
      });
    }
    if (parts.has('ghost')) {
      play(groove.ghost, until, ([offset, level]) =>
        view.hit('drums', kit.snare('ghost'), offset, { level: 0.5 * level * human() }),
      );
    }
    if (parts.has('shaker')) {
      play(groove.shaker, until, ([offset, level]) =>
        view.hit('drums', kit.shaker(random.whole(0, 2)), offset, { level: 0.17 * level * human(), pan: -0.3 }),
      );
    }
    if (parts.has('ride')) {
      play(groove.ride, until, ([offset, level]) =>
        view.hit('drums', kit.ride(), offset, { level: 0.2 * level * human(), pan: 0.25 }),
      );
    }
    if (parts.has('skins')) playSkins(view, until);
  }
  if (plan.roll) playRoll(view);
  playFill(view);
}
