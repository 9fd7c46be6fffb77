import { RATE, type Stereo } from '../sound/stereo.js';
import { BASS_Q, BASS_UP_TO, type Envelope, type Strand } from './graph.js';

/** Mixes strands by an offline audio context (Web Audio API, W3C). Throws where the native library cannot be loaded. */
export async function mixNatively(strands: readonly Strand[], frames: number): Promise<Stereo> {
  const { OfflineAudioContext } = await import('node-web-audio-api');
  const context = new OfflineAudioContext(2, frames, RATE);
  for (const { sound, whole, withoutBass } of strands) {
    const buffer = context.createBuffer(2, Math.max(1, sound.left.length), RATE);
    buffer.copyToChannel(sound.left as Float32Array<ArrayBuffer>, 0);
    buffer.copyToChannel(sound.right as Float32Array<ArrayBuffer>, 1);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(levelOf(whole)).connect(context.destination);
    if (withoutBass !== undefined) {
      source.connect(highPass()).connect(highPass()).connect(levelOf(withoutBass)).connect(context.destination);
    }
    source.start(0);
  }
  const mixed = await context.startRendering();
  const out = { left: new Float32Array(frames), right: new Float32Array(frames) };
  mixed.copyFromChannel(out.left, 0);
  mixed.copyFromChannel(out.right, 1);
  return out;

  function levelOf(envelope: Envelope) {
    const node = context.createGain();
    const [first, ...rest] = envelope;
    node.gain.setValueAtTime(first?.level ?? 0, 0);
    if (first !== undefined && first.time > 0) node.gain.setValueAtTime(first.level, first.time);
    for (const { time, level } of rest) node.gain.linearRampToValueAtTime(level, time);
    return node;
  }

  function highPass() {
    const filter = context.createBiquadFilter();
    filter.type = 'highpass';
    filter.frequency.value = BASS_UP_TO;
    filter.Q.value = BASS_Q;
    return filter;
  }
}
