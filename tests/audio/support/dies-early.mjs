/** A decoding process that is killed shortly after its first answer with samples. */
import { Socket } from 'node:net';

const write = Socket.prototype.write;
let answers = 0;
Socket.prototype.write = function (...args) {
  // greeting and samples are two writes each: a head and a body
  if (++answers > 4) process.kill(process.pid, 'SIGKILL');
  return write.apply(this, args);
};
await import('../../../src/audio/decoder/worker.mjs');
