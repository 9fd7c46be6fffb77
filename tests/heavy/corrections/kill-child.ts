import { appendCorrections } from '../../../src/track/index.js';

// Says one thing after another about a track, names each that is kept, and is killed in the midst of it.
const [folder, audioDigest] = process.argv.slice(2);
process.send?.(-1);
for (let i = 0; ; i++) {
  await appendCorrections({ audioDigest, file: 'track.wav', folder }, [
    { kind: 'beat', time: i / 100, said: null, from: null },
  ]);
  process.send?.(i);
}
