import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseTrackAnalysis } from '../../src/index.js';

/**
 * The native decoder needs the system's sound library to load. Here it is taken away for one process by mounting an empty
 * file over it, which needs Linux and root; it also needs `npm run demo` to have made the crate.
 */
const library = execFileSync('sh', ['-c', "ldconfig -p | sed -n 's/.*libasound.so.2 .*=> //p' | head -n 1"], {
  encoding: 'utf8',
}).trim();
const crate = 'demo/crate';
const able = process.getuid?.() === 0 && existsSync(crate);

function analyse(file: string, hidden: boolean) {
  const command = `node dist/src/cli/main.js analyse --json --no-cache ${crate}/${file}`;
  const hide = library && hidden ? `mount --bind /dev/null "$(readlink -f ${library})" && ` : '';
  return spawnSync('unshare', ['-m', 'sh', '-c', hide + command], { encoding: 'utf8', maxBuffer: 2 ** 27 });
}

describe.skipIf(!able)('without the sound library', () => {
  it.each(['03-rope-locker-lights.mp3', '04-ticket-window-shut.ogg', '06-fog-bell-rehearsal.flac'])(
    'reads %s all the same, says so in one sentence, and finds the same track',
    (file) => {
      const plain = analyse(file, false);
      const without = analyse(file, true);
      expect(without.status, without.stderr).toBe(0);
      const [a, b] = [plain, without].map((run) => parseTrackAnalysis(JSON.parse(run.stdout)));
      expect(b.source.warnings.map((w) => w.message).join(' ')).toContain('libasound2');
      expect(b.tempo.bpm).toBeCloseTo(a.tempo.bpm, 2);
      expect(b.phrases.map((p) => p.startBar)).toEqual(a.phrases.map((p) => p.startBar));
      const drift = Math.max(...a.beats.map((t, i) => Math.abs(t - b.beats[i])));
      expect(drift).toBeLessThan(0.002);
    },
  );
});
