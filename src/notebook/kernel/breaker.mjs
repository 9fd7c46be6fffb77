// Waits in a thread of its own for the parent's word that the running cell must be broken off. A loop without an end
// hears no signal and no message once it has awaited something; the debugger's own means, used from here, stops it and
// keeps every name the cells before it made. When the pipe ends the parent is gone, and so is this process.
import { Session } from 'node:inspector';
import { Socket } from 'node:net';
import { workerData } from 'node:worker_threads';
import { PHASE } from './phase.mjs';

const session = new Session();
session.connectToMainThread();
const pipe = new Socket({ fd: workerData.pipe, readable: true, writable: false });
const end = () => process.kill(process.pid, 'SIGKILL');
pipe.on('data', breakOff);
pipe.on('end', end).on('error', end);

/** Only what a cell does after its first await is broken off: before, a signal does it, and the compiler must not be hurt. */
function breakOff() {
  const now = Atomics.load(workerData.phase, 0);
  if (now === PHASE.waiting) session.post('Runtime.terminateExecution', () => undefined);
  else if (now !== PHASE.idle) setTimeout(breakOff, 50);
}
