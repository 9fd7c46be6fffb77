import cliProgress from 'cli-progress';
import type { TrackDone } from '../crate/index.js';
import type { Progress } from '../units/index.js';
import { printable, type Io } from './io.js';
import { startPace } from './pace.js';
import { fit } from './table.js';

/** What is shown while a command works. */
export interface ProgressView {
  readonly onProgress: (progress: Progress) => void;
  readonly onTrack: (done: TrackDone) => void;
  /** Takes it away, before results are printed. */
  readonly stop: () => void;
}

const STAGE_CELLS = 46;

/** A bar on a terminal. Elsewhere nothing, or with `lines` a line for every finished track. */
export function showProgress(io: Io, options: { lines?: boolean } = {}): ProgressView {
  if (io.stderr.isTTY === true) return terminalBar(io);
  return {
    onProgress: () => undefined,
    onTrack: (done) => {
      if (options.lines) io.stderr.write(`  ${trackLine(done)}\n`);
    },
    stop: () => undefined,
  };
}

function terminalBar(io: Io): ProgressView {
  const bar = new cliProgress.SingleBar({
    format: '{bar} {percentage} %  {what}',
    barsize: 24,
    barCompleteChar: '█',
    barIncompleteChar: '░',
    hideCursor: true,
    clearOnComplete: true,
    fps: 8,
    stream: io.stderr as NodeJS.WriteStream,
    formatValue: (value, _, type) => (type === 'percentage' ? `${value}`.padStart(3) : `${value}`),
  });
  const pace = startPace();
  let [what, tracks] = ['', ''];
  bar.start(1000, 0, { what });
  let running = true;
  const update = (done?: number) => {
    // A worker may still speak up after the bar is gone.
    if (!running) return;
    const text = fit([tracks, what].filter(Boolean).join(' · '), STAGE_CELLS);
    if (done === undefined) bar.update({ what: text });
    else bar.update(Math.round(done * 1000), { what: text });
  };
  return {
    onProgress({ stage, done }) {
      what = printable(stage);
      update(done);
    },
    onTrack(track) {
      const { done, total } = track;
      tracks = total > 1 ? [`${done} of ${total}`, pace.note(track)].filter(Boolean).join(', ') : '';
      update();
    },
    stop: () => {
      running = false;
      bar.stop();
    },
  };
}

function trackLine({ file, outcome, done, total }: TrackDone): string {
  const how = {
    analysed: 'analysed',
    cached: 'known already',
    failed: 'could not be analysed',
    left: 'left to another run',
  }[outcome];
  return `${done} of ${total}  ${printable(file)}: ${how}`;
}
