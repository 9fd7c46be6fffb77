import { createRequire } from 'node:module';
import type { Message } from './wire.js';

/** The file that Jupyter gives a kernel: where to listen, and the key by which messages are signed. @experimental */
export interface Connection {
  readonly transport: string;
  readonly ip: string;
  readonly key: string;
  readonly shell_port: number;
  readonly control_port: number;
  readonly stdin_port: number;
  readonly iopub_port: number;
  readonly hb_port: number;
}

interface Socket extends AsyncIterable<Buffer[]> {
  linger: number;
  bind(address: string): Promise<void>;
  send(frames: readonly (Buffer | string)[]): Promise<void>;
  close(): void;
}
interface ZeroMq {
  Router: new () => Socket;
  Publisher: new () => Socket;
  Reply: new () => Socket;
}

/** Channels on which requests come in. */
export type Channel = 'shell' | 'control';

export interface Sockets {
  answer(channel: Channel, frames: readonly (Buffer | string)[]): void;
  publish(frames: readonly (Buffer | string)[]): void;
  close(): void;
}

/**
 * Opens the five sockets of a kernel and hands every request on. Frames go out in the order in which they are given.
 * @param read takes the frames of a message apart
 */
export async function openSockets(
  connection: Connection,
  read: (frames: readonly Buffer[]) => Message | null,
  onRequest: (channel: Channel, message: Message) => void,
): Promise<Sockets> {
  const require = createRequire(createRequire(import.meta.url).resolve('tslab/package.json'));
  const { Router, Publisher, Reply } = require('zeromq') as ZeroMq;
  const [shell, control, stdin] = [new Router(), new Router(), new Router()];
  const [iopub, heartbeat] = [new Publisher(), new Reply()];
  const all = [shell, control, stdin, iopub, heartbeat];
  const address = (port: number) =>
    `${connection.transport}://${connection.ip}${connection.transport === 'ipc' ? '-' : ':'}${port}`;
  await Promise.all([
    shell.bind(address(connection.shell_port)),
    control.bind(address(connection.control_port)),
    stdin.bind(address(connection.stdin_port)),
    iopub.bind(address(connection.iopub_port)),
    heartbeat.bind(address(connection.hb_port)),
  ]);
  const queues = new Map<Socket, Promise<void>>();
  const post = (socket: Socket, frames: readonly (Buffer | string)[]): void => {
    const before = queues.get(socket) ?? Promise.resolve();
    // A front end that is gone cannot be told anything.
    queues.set(
      socket,
      before.then(() => socket.send(frames)).catch(() => undefined),
    );
  };
  const listen = async (socket: Socket, each: (frames: Buffer[]) => void): Promise<void> => {
    try {
      for await (const frames of socket) each(frames);
    } catch {
      // The socket has been closed.
    }
  };
  const requests = (channel: Channel) => (frames: Buffer[]) => {
    const message = read(frames);
    if (message) onRequest(channel, message);
  };
  void listen(shell, requests('shell'));
  void listen(control, requests('control'));
  void listen(stdin, () => undefined);
  void listen(heartbeat, (frames) => post(heartbeat, frames));
  return {
    answer: (channel, frames) => post(channel === 'shell' ? shell : control, frames),
    publish: (frames) => post(iopub, frames),
    close: () => {
      void Promise.all(queues.values()).then(() => {
        for (const socket of all) socket.close();
      });
    },
  };
}
