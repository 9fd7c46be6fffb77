/**
 * Time-stretching in a thread of its own: signalsmith-stretch is made for an AudioWorklet and looks for that world's
 * names, which nothing else in the process should see. Only its processor's WebAssembly module is used.
 *
 * Takes { channels, frames, reach, rate } once and answers with the stretched channels: `reach[k]` is the frame of the
 * input that sounds at frame k · BLOCK of the output.
 */
import { parentPort, workerData } from 'node:worker_threads';

const { channels, frames, reach, block: BLOCK, rate } = workerData;
/** Analysis window and its step at 44.1 kHz: 80 ms and 20 ms. Shorter blurs the bass, longer smears the drums. */
const [WINDOW, STEP] = [Math.round(0.08 * rate), Math.round(0.02 * rate)];
/** Output that is made and thrown away before the first frame, so that the windows are full. */
const WARM_UP = 8;

globalThis.sampleRate = rate;
globalThis.currentTime = 0;
globalThis.AudioWorkletProcessor = class {
  port = { postMessage() {}, onmessage: null };
};
let Processor;
globalThis.registerProcessor = (_, processor) => (Processor = processor);
await import('signalsmith-stretch');
const processor = new Processor({ numberOfOutputs: 1, outputChannelCount: [channels.length] });
while (!processor.wasmReady) await new Promise((resolve) => setTimeout(resolve, 1));
const wasm = processor.wasmModule;

const most = Math.ceil(BLOCK * 4);
wasm._configure(channels.length, WINDOW, STEP, 0);
wasm._reset();
const pointer = wasm._setBuffers(channels.length, most) / 4;
const [inputLatency, outputLatency] = [wasm._inputLatency(), wasm._outputLatency()];
const out = channels.map(() => new Float32Array(frames));

/** Frame of the input that sounds at a frame of the output. */
const inputAt = (frame) => {
  const k = Math.min(Math.max(Math.floor(frame / BLOCK), 0), reach.length - 2);
  return reach[k] + ((frame - k * BLOCK) / BLOCK) * (reach[k + 1] - reach[k]);
};
// A frame that is processed sounds `outputLatency` later, and is made of input up to `inputLatency` ahead of it.
const fedUpTo = (frame) => Math.round(inputAt(frame + outputLatency) + inputLatency);
const start = -outputLatency - WARM_UP * BLOCK;
let fed = fedUpTo(start);
for (let frame = start; frame < frames; frame += BLOCK) {
  const target = fedUpTo(frame + BLOCK);
  const count = Math.min(Math.max(target - fed, 0), most);
  const heap = new Float32Array(wasm.HEAP8.buffer);
  channels.forEach((samples, c) => {
    for (let i = 0; i < count; i++) heap[pointer + c * most + i] = samples[fed + i] ?? 0;
  });
  wasm._process(count, BLOCK);
  fed += count;
  const after = new Float32Array(wasm.HEAP8.buffer);
  out.forEach((samples, c) => {
    const from = pointer + (channels.length + c) * most;
    for (let i = 0; i < BLOCK; i++) {
      const at = frame + i;
      if (at >= 0 && at < frames) samples[at] = after[from + i];
    }
  });
}
parentPort.postMessage(
  out,
  out.map((samples) => samples.buffer),
);
