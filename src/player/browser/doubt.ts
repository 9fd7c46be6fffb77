import { tempoCommand } from '../command.js';
import type { TrackAnalysis } from '../../track/index.js';
import { doubtQuestion, spokenTempo, tempoDoubt, type TempoReading } from '../../wording/index.js';
import { html } from './dom.js';

/** "87 or 174?": both readings with their evidence; choosing one counts and draws the track by it. */
export function drawDoubt(
  host: HTMLElement,
  readings: readonly TrackAnalysis[],
  chosen: number,
  choose: (reading: number) => void,
): void {
  const doubt = tempoDoubt(readings[0]);
  host.hidden = doubt === null || readings.length < 2;
  if (host.hidden || !doubt) return host.replaceChildren();
  const focused = host.contains(document.activeElement);
  const options = readings.map((r, i) => option(r, i, weightOf(doubt, r.tempo.bpm), i === chosen, choose));
  host.replaceChildren(
    html('fieldset', {}, [
      html('legend', {}, [doubtQuestion(doubt)]),
      html('p', {}, [
        'Both counts fit what is heard. Choose the one you would count: ladder and count follow at once.',
      ]),
      html('div', { class: 'readings' }, options),
      ...verdict(readings, chosen),
    ]),
  );
  if (focused) host.querySelector<HTMLInputElement>(':checked')?.focus();
}

function option(
  reading: TrackAnalysis,
  index: number,
  weight: number | null,
  on: boolean,
  choose: (i: number) => void,
) {
  const input = html('input', { type: 'radio', name: 'reading', value: index, checked: on });
  input.addEventListener('change', () => choose(index));
  const share = weight === null ? 'not weighed' : `${Math.round(weight * 100)} % of the evidence`;
  const scale = html('i', { class: 'scale', 'aria-hidden': 'true' }, [html('i')]);
  (scale.firstChild as HTMLElement).style.width = `${(weight ?? 0) * 100}%`;
  return html('label', {}, [
    input,
    html('b', {}, [`${spokenTempo(reading.tempo.bpm)} BPM`]),
    html('span', {}, [share + (index === 0 ? ' · as analysed' : '')]),
    scale,
  ]);
}

function weightOf(doubt: readonly TempoReading[], bpm: number): number | null {
  return doubt.find((d) => Math.abs(d.bpm / bpm - 1) < 0.02)?.weight ?? null;
}

function verdict(readings: readonly TrackAnalysis[], chosen: number): HTMLElement[] {
  if (chosen === 0) return [];
  const { source, tempo } = readings[chosen];
  return [
    html('p', { class: 'verdict' }, [
      'To have it counted so everywhere: ',
      html('code', {}, [tempoCommand(source.file, tempo.bpm)]),
    ]),
  ];
}
