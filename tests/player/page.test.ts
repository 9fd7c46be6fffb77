import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { renderPage } from '../../src/player/index.js';
import { escapeHtml, escapeJson } from '../../src/player/escape.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

const HOSTILE = `</script><script>alert(1)</script><!--"'&\u2028<img src=x onerror=alert(2)>`;
const page = (title: string | null, options = {}) =>
  renderPage([{ analysis: sampleAnalysis(undefined, { title, artist: title }), audio: 'a.wav' }], options);

describe('renderPage', () => {
  it('holds nothing that a hostile tag could start: no element, no comment, no attribute', () => {
    const plain = page('Plain', { title: 'Plain' });
    const hostile = page(HOSTILE, { title: HOSTILE });
    for (const opening of ['<script', '<img', '<!--', '</script', 'onerror=alert']) {
      const count = (text: string) => text.split(opening).length;
      if (opening === 'onerror=alert') expect(hostile).not.toMatch(/<[^>]*onerror=alert/);
      else expect(count(hostile), opening).toBe(count(plain));
    }
  });

  it('gives its data back unchanged, hostile tags and all', () => {
    const html = page(HOSTILE);
    const json = /<script type="application\/json" id="barwise-data">(.*?)<\/script>/s.exec(html)![1];
    const data = JSON.parse(json) as { tracks: { readings: { source: { tags: { title: string } } }[] }[] };
    expect(data.tracks[0].readings[0].source.tags.title).toBe(HOSTILE);
  });

  it('lets only its own script and style sheet run and names no other place', () => {
    const html = page('Plain');
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)![1];
    const sha = (text: string) => `sha256-${createHash('sha256').update(text).digest('base64')}`;
    expect(policy).toContain(`script-src '${sha(/<script>(.*?)<\/script>/s.exec(html)![1])}'`);
    expect(policy).toContain(`style-src '${sha(/<style>(.*?)<\/style>/s.exec(html)![1])}'`);
    expect(policy).toContain(`default-src 'none'`);
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:\/\//);
  });

  it('carries every reading of a track and the caution about hearing', () => {
    const [one, other] = [sampleAnalysis(undefined, { bpm: 174 }), sampleAnalysis(undefined, { bpm: 87 })];
    const html = renderPage([{ analysis: one, audio: 'a.wav', alternatives: [other] }]);
    expect(html).toContain('"bpm":174');
    expect(html).toContain('"bpm":87');
    expect(html).toMatch(/H\.870/);
    expect(html).toMatch(/id="volume"[^>]*value="40"/);
  });

  it('is a page, too, when there is no track', () => {
    expect(renderPage([])).toContain('<main>');
  });
});

describe('escaping', () => {
  it('escapes the five characters of HTML', () => {
    expect(escapeHtml(`<a href="x">'&`)).toBe('&lt;a href=&quot;x&quot;&gt;&#39;&amp;');
  });

  it('leaves JSON that parses to the same', () => {
    expect(JSON.parse(escapeJson({ a: HOSTILE }))).toEqual({ a: HOSTILE });
    expect(escapeJson(HOSTILE)).not.toMatch(/[<>&\u2028]/);
  });
});
