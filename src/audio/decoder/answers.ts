import type { AudioBlock } from '../source.js';

/** One answer of the decoding process: samples, or a text. */
export interface Answer {
  /** `null` when the answer is a text. */
  readonly channels: AudioBlock | null;
  readonly sampleRate: number;
  readonly text: string;
}

const HEAD = 16;

/**
 * Puts the answers together from the pieces of the pipe; the format stands at the head of worker.mjs.
 * @param room gives a place for so many bytes of samples; it may be longer
 */
export function createAnswers(
  onAnswer: (answer: Answer) => void,
  room: (bytes: number) => ArrayBuffer,
): (chunk: Uint8Array) => void {
  const head = new Uint8Array(HEAD);
  let headBytes = 0;
  let body: Uint8Array<ArrayBuffer> | null = null;
  let bodyBytes = 0;
  let [kind, channels, count, rate] = [0, 0, 0, 0];

  return (chunk) => {
    for (let at = 0; at < chunk.length || (body && bodyBytes === body.length);) {
      if (!body) {
        const part = chunk.subarray(at, at + HEAD - headBytes);
        head.set(part, headBytes);
        headBytes += part.length;
        at += part.length;
        if (headBytes < HEAD) return;
        const view = new DataView(head.buffer);
        [kind, channels, count, rate] = [0, 4, 8, 12].map((i) => view.getUint32(i, true));
        body = kind === 0 ? bytesIn(room, channels * count * 4) : new Uint8Array(count);
        bodyBytes = 0;
        headBytes = 0;
      }
      const part = chunk.subarray(at, at + body.length - bodyBytes);
      body.set(part, bodyBytes);
      bodyBytes += part.length;
      at += part.length;
      if (bodyBytes < body.length) return;
      onAnswer(answerOf(kind, channels, count, rate, body));
      body = null;
    }
  };
}

function bytesIn(room: (bytes: number) => ArrayBuffer, length: number): Uint8Array<ArrayBuffer> {
  return new Uint8Array(room(length), 0, length);
}

function answerOf(
  kind: number,
  channels: number,
  count: number,
  sampleRate: number,
  body: Uint8Array<ArrayBuffer>,
): Answer {
  if (kind !== 0) return { channels: null, sampleRate: 0, text: new TextDecoder().decode(body) };
  const samples = new Float32Array(body.buffer, 0, channels * count);
  return {
    channels: Array.from({ length: channels }, (_, c) => samples.subarray(c * count, (c + 1) * count)),
    sampleRate,
    text: '',
  };
}
