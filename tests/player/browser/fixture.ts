import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { encodeWav } from '../../../src/audio/index.js';
import { renderPage } from '../../../src/player/index.js';
import type { TrackAnalysis } from '../../../src/track/index.js';
import { sampleAnalysis, type SamplePart } from '../../support/sample-analysis.js';
import { usePages } from './pages.js';

export const HOSTILE = `</script><img src=x onerror="window.broken = 1"><b>`;
const parts = (bars: number): SamplePart[] => [
  { function: 'intro', phrases: [bars], layers: ['percussion'] },
  { function: 'main', phrases: [bars, bars], layers: ['kick', 'bass', 'percussion'] },
  { function: 'outro', phrases: [bars], layers: ['kick'] },
];
const doubtful = {
  confidence: 0.5,
  alternatives: [
    { bpm: 174, weight: 0.6 },
    { bpm: 87, weight: 0.35 },
  ],
};
const tempo = { bpm: 174, steadiness: 'constant' as const, pieces: [], ...doubtful };

export const first = sampleAnalysis();
export const fast = sampleAnalysis(parts(16), { title: 'Half Speed Astern', bpm: 174, overrides: { tempo } });
export const slow = sampleAnalysis(parts(8), { title: 'Half Speed Astern', bpm: 87, phraseBars: 8 });
export const hostile = sampleAnalysis(undefined, { title: HOSTILE, artist: HOSTILE });
/** A track in which nothing was found. */
export const bare = sampleAnalysis(undefined, {
  title: 'Wind on the Quay',
  overrides: { beats: [], bars: [], phrases: [], sections: [], events: [], irregularities: [] },
});

function sound({ source }: TrackAnalysis): Uint8Array {
  const rate = 8000;
  return encodeWav(
    [new Float32Array(Math.ceil(source.durationSeconds * rate)).map((_, i) => 0.1 * Math.sin(i / 6))],
    rate,
  );
}

/** The page of three tracks in a browser. Whatever goes wrong in it makes the test fail that was using it. */
export interface OpenPage {
  /** Opens it afresh. */
  readonly open: (options?: Parameters<Browser['newPage']>[0]) => Promise<void>;
  readonly page: () => Page;
  readonly time: () => Promise<number>;
  readonly isPlaying: () => Promise<boolean>;
  readonly text: (id: string) => Promise<string>;
  /** Complaints of the page and requests to other places so far. */
  readonly trouble: string[];
}

/** Makes the page and the browser for the tests around it. */
export function usePage(): OpenPage {
  const { open, page, trouble } = usePages('barwise-page-', /^(file|data|blob):/, (folder) => {
    [first, fast, hostile, bare].forEach((a, i) => writeFileSync(join(folder, `track ${i} #.wav`), sound(a)));
    const tracks = [first, fast, hostile, bare].map((analysis, i) => ({
      analysis,
      audio: `track%20${i}%20%23.wav`,
      ...(analysis === fast ? { alternatives: [slow] } : {}),
    }));
    writeFileSync(join(folder, 'page.html'), renderPage(tracks, { title: HOSTILE }));
  });

  return {
    trouble,
    page,
    async open(options = {}) {
      const opened = await open('page.html', { viewport: { width: 1280, height: 900 }, ...options });
      await opened.waitForFunction(() => (document.getElementById('audio') as HTMLAudioElement).readyState >= 1);
    },
    time: () => page().evaluate(() => (document.getElementById('audio') as HTMLAudioElement).currentTime),
    isPlaying: () => page().evaluate(() => !(document.getElementById('audio') as HTMLAudioElement).paused),
    text: async (id) => (await page().textContent(`#${id}`)) ?? '',
  };
}
