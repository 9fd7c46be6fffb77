import type { Checked, Reported } from './verdicts.js';

interface SongNotes {
  readonly id: string;
  readonly bpm: number;
  readonly meter: string;
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
  readonly sections?: readonly { readonly bar: number; readonly bars: number; readonly label: string }[];
  readonly instrumentation?: readonly { readonly track: string; readonly role: string; readonly bars: string }[];
}

/** Bars shown before and after a place. */
const AROUND = 20;

/** In words and rows: what the notes of the song do around a place where something irregular was reported. */
export function placeInNotes(truth: SongNotes, item: Reported, known: Checked | null): string {
  const { downbeats } = truth;
  const at = downbeats.findLastIndex((t) => t <= item.time + 0.1);
  const off = at >= 0 ? (item.time - downbeats[at]) * (truth.bpm / 60) : 0;
  const first = Math.max(0, at - AROUND);
  const last = Math.min(downbeats.length, at + AROUND + 1);
  const tempo = (a: number, b: number) => {
    const beats = truth.beats.filter((t) => t >= a && t <= b);
    return beats.length > 1 ? ((60 * (beats.length - 1)) / (beats[beats.length - 1] - beats[0])).toFixed(2) : '–';
  };
  const lengths = downbeats.slice(first, last).map((t, i) => truth.beats.filter((b) => b >= t - 0.01 && b < (downbeats[first + i + 1] ?? t + (240 / truth.bpm) * 1.01) - 0.01).length); // prettier-ignore
  const rows = (truth.instrumentation ?? [])
    .filter(({ bars }) => bars.slice(first, last).includes('1'))
    .map(({ track, role, bars }) => `    ${`${role} ${track}`.slice(0, 24).padEnd(24)} ${bars.slice(first, last)}`);
  const detail = Object.entries(item.detail).map(([k, v]) => `${k} ${typeof v === 'number' ? Math.round(v * 1000) / 1000 : JSON.stringify(v)}`); // prettier-ignore
  return [
    `\n${item.song}: ${item.kind} at ${item.time.toFixed(2)} s, our bar ${item.bar}: ${detail.join(', ')}`,
    `  ${truth.bpm} BPM, ${truth.meter}; true bar ${at + 1} and ${off.toFixed(2)} beats; tempo before ${tempo(item.time - 20, item.time)}, after ${tempo(item.time, item.time + 20)}`,
    `  sections ${(truth.sections ?? []).map((s) => `${s.bar}${s.label}+${s.bars}`).join(' ')}`,
    `  bars ${first + 1}–${last}, beats ${lengths.join('')}`,
    `    ${'here'.padEnd(24)} ${' '.repeat(Math.max(0, at - first))}^`,
    ...rows,
    ...(known ? [`  ${known.verdict}: ${known.reason}`] : []),
  ].join('\n');
}
