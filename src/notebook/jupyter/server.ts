import { randomUUID } from 'node:crypto';
import { createRequire } from 'node:module';
import { startKernel, type Kernel } from '../kernel/process.js';
import { createHistory } from './history.js';
import { languageInfo } from './language.js';
import { createPublisher } from './publisher.js';
import { toCharacters, toUnits } from './positions.js';
import { openSockets, type Channel, type Connection } from './sockets.js';
import { PROTOCOL_VERSION, readMessage, writeMessage, type Message } from './wire.js';

/** A kernel that is serving a front end. @experimental */
export interface JupyterKernel {
  /** Resolves when Jupyter has asked the kernel to end. */
  readonly ended: Promise<void>;
  /** Ends the cell that is running; every name is kept. */
  interrupt(): void;
  /** Ends the kernel and closes its sockets. */
  close(): void;
}

const { version } = createRequire(import.meta.url)('barwise/package.json') as { version: string };

/**
 * Serves one Jupyter front end: cells run in a process of their own, which may hang or die without taking the kernel
 * with it. After the messaging protocol 5.3 (Jupyter Client documentation, "Messaging in Jupyter").
 * @experimental
 * @param folder working folder of the cells
 * @throws BarwiseError `missing-package`
 */
export async function serveJupyter(connection: Connection, folder: string): Promise<JupyterKernel> {
  const session = randomUUID();
  const { key } = connection;
  const history = createHistory();
  let count = 0;
  /** The cell that spoke last: what its leftovers say later goes under it. */
  let parent: Message | null = null;
  let kernel = start();
  let queue: Promise<unknown> = Promise.resolve();
  /** Cells that were waiting when one failed are not run. */
  let generation = 0;
  let end!: () => void;
  const ended = new Promise<void>((resolve) => (end = resolve));

  const sockets = await openSockets(connection, (frames) => readMessage(frames, key), request);
  const publish = (type: string, content: object, to: Message | null) =>
    sockets.publish(
      writeMessage(type, content, { key, session, parent: to?.header ?? null, identities: [`kernel.${type}`] }),
    );
  const answer = (channel: Channel, to: Message, type: string, content: object) =>
    sockets.answer(
      channel,
      writeMessage(type, content, { key, session, parent: to.header, identities: to.identities }),
    );
  const publisher = createPublisher(publish);
  publish('status', { execution_state: 'starting' }, null);

  function start(): Kernel {
    return startKernel(folder, { onStray: (message) => publisher.say(message, parent, count) });
  }

  /** Requests are answered one after another, save those that must get through while a cell runs. */
  function request(channel: Channel, message: Message): void {
    const work = async () => {
      publish('status', { execution_state: 'busy' }, message);
      try {
        await respond(channel, message, born);
      } finally {
        publish('status', { execution_state: 'idle' }, message);
      }
    };
    const born = generation;
    if (channel === 'control' || IMMEDIATE.has(message.header.msg_type)) void work();
    else queue = queue.then(work, work);
  }

  async function respond(channel: Channel, message: Message, born: number): Promise<void> {
    const { content } = message;
    const code = textOf(content['code']);
    const position = toUnits(code, typeof content['cursor_pos'] === 'number' ? content['cursor_pos'] : Infinity);
    const reply = (type: string, body: object) => answer(channel, message, type, { status: 'ok', ...body });
    switch (message.header.msg_type) {
      case 'kernel_info_request':
        return reply('kernel_info_reply', {
          protocol_version: PROTOCOL_VERSION,
          implementation: 'barwise',
          implementation_version: version,
          language_info: languageInfo(),
          banner: `Barwise ${version}: the library's names are at hand, charts.… and reports.… too`,
          help_links: [],
        });
      case 'execute_request':
        return execute(channel, message, born);
      case 'is_complete_request':
        return answer(channel, message, 'is_complete_reply', (await kernel.isComplete(code)) ?? { status: 'unknown' });
      case 'complete_request': {
        const found = (await kernel.complete(code, position)) ?? { start: position, end: position, matches: [] };
        const [cursor_start, cursor_end] = [toCharacters(code, found.start), toCharacters(code, found.end)];
        return reply('complete_reply', { cursor_start, cursor_end, matches: found.matches, metadata: {} });
      }
      case 'inspect_request': {
        const text = (await kernel.inspect(code, position))?.text;
        const data = text === undefined ? {} : { 'text/plain': text };
        return reply('inspect_reply', { found: text !== undefined, data, metadata: {} });
      }
      case 'history_request':
        return reply('history_reply', { history: history.find(content) });
      case 'comm_info_request':
        return reply('comm_info_reply', { comms: {} });
      case 'interrupt_request':
        kernel.interrupt();
        return reply('interrupt_reply', {});
      case 'shutdown_request':
        reply('shutdown_reply', { restart: content['restart'] === true });
        kernel.close();
        return end();
    }
  }

  async function execute(channel: Channel, message: Message, born: number): Promise<void> {
    const { content } = message;
    const code = textOf(content['code']);
    const silent = content['silent'] === true;
    if (born !== generation)
      return answer(channel, message, 'execute_reply', { ...ABORTED, status: 'aborted', execution_count: count });
    const stored = !silent && content['store_history'] !== false;
    if (stored) history.add(++count, code);
    if (!silent) publish('execute_input', { code, execution_count: count }, message);
    parent = message;
    const asked = ASKING.exec(code);
    if (asked) {
      const name = asked[1] ?? asked[2];
      const text = (await kernel.inspect(name, name.length))?.text ?? `Nothing is known of ${name}.`;
      const payload = [{ source: 'page', data: { 'text/plain': text }, start: 0 }];
      return answer(channel, message, 'execute_reply', { ...DONE, payload, execution_count: count });
    }
    let failure: object = ABORTED;
    const end = await kernel.run(
      code,
      (said) => {
        if (said.kind === 'error') failure = { ename: said.ename, evalue: said.evalue, traceback: said.traceback };
        if (said.kind === 'result') history.setOutput(count, textOf(said.data['text/plain']));
        if (!silent || said.kind === 'stream') publisher.say(said, message, count);
      },
      { cell: count },
    );
    const isOk = end === 'ok';
    if (end === 'died') {
      kernel = start();
      publisher.say({ kind: 'stream', name: 'stderr', text: RESTARTED }, message, count);
    }
    if (!isOk && content['stop_on_error'] !== false) generation++;
    const outcome = isOk ? DONE : { status: 'error', ...failure };
    answer(channel, message, 'execute_reply', { ...outcome, execution_count: count });
  }

  return {
    ended,
    interrupt: () => kernel.interrupt(),
    close: () => {
      kernel.close();
      sockets.close();
    },
  };
}

const IMMEDIATE = new Set(['kernel_info_request', 'comm_info_request']);
/** `name?` and `?name` ask what a name is; no TypeScript looks so. */
const ASKING = /^\s*(?:\?\s*([\w$.]+)|([\w$.]+)\s*\?)\s*$/;
const DONE = { status: 'ok', payload: [], user_expressions: {} };
const ABORTED = { ename: 'Aborted', evalue: 'A cell before this one failed.', traceback: [] };
const RESTARTED = 'A new process was started. Names from earlier cells are gone: run the cells above again.\n';

function textOf(value: unknown): string {
  return typeof value === 'string' ? value : '';
}
