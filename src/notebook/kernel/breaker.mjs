// Waits in a thread of its own for the parent's word that the running cell must be broken off. A loop without an end
// hears no signal and no message once it has awaited something; the debugger's own means, used from here, stops it and
// keeps every name the cells before it made. When the pipe ends the parent is gone, and so is this process.
import { Session } from 'node:inspector';
import { Socket } from 'node:net';

const session = new Session();
session.connectToMainThread();
const pipe = new Socket({ fd: Number(process.argv[2]), readable: true, writable: false });
const end = () => process.kill(process.pid, 'SIGKILL');
pipe.on('data', () => session.post('Runtime.terminateExecution', () => undefined));
pipe.on('end', end).on('error', end);
