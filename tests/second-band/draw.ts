import { dice } from './dice.js';
import { drawForm } from './form.js';
import type { Plan } from './plan.js';
import { plant } from './planting.js';
import { STYLE_NAMES, STYLES } from './styles.js';

const LOOPS: Readonly<Record<Plan['mode'], readonly (readonly number[])[]>> = {
  minor: [[0, 0, 5, 6], [0, 3, 5, 4], [0, 5, 2, 6], [0, 2, 3, 3], [0, 0, 3, 0, 5, 5, 6, 4], [0, 6, 5, 6], [0, 4, 5, 2, 3, 0, 3, 4]], // prettier-ignore
  major: [
    [0, 3, 4, 3],
    [0, 5, 3, 4],
    [1, 4, 0, 0],
    [0, 4, 5, 3],
    [3, 4, 0, 5],
    [0, 1, 3, 4, 0, 5, 3, 4],
  ],
};

/** What may be fixed about a drawn track. */
export interface Draw {
  /** How many kinds of irregularity to plant; drawn (half of the tracks have none) when left out. */
  readonly irregular?: number;
  /** At most so many sections, so that a test is quick. */
  readonly sections?: number;
}

/** A track of the second band; the same seed is the same track. */
export function drawPlan(seed: number, { irregular, sections = Infinity }: Draw = {}): Plan {
  const d = dice(seed);
  const style = d.one(STYLE_NAMES);
  const { bpm, swing, acoustic } = STYLES[style];
  const mode = d.happens(0.65) ? 'minor' : 'major';
  const unit = d.one([8, 8, 8, 8, 8, 8, 16, 4] as const);
  const tempo = d.between(bpm[0], bpm[1]);
  const all = drawForm(d, unit);
  const plan: Plan = {
    seed,
    style,
    bpm: d.happens(0.75) ? Math.round(tempo) : Math.round(tempo * 10) / 10,
    unit,
    swing: d.between(swing[0], swing[1]),
    tonic: d.whole(0, 11),
    mode,
    loop: d.one(LOOPS[mode]),
    leadIn: d.happens(0.35) ? 0 : d.between(0.01, 0.9),
    acoustic: d.happens(acoustic),
    drift: 0,
    sections: all.slice(0, sections),
  };
  plant(plan, d, irregular ?? d.one([0, 0, 0, 0, 0, 1, 1, 1, 2, 3]));
  return plan;
}
