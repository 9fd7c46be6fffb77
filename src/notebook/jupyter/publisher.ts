import type { CellMessage } from '../outputs.js';
import { textual } from '../outputs.js';
import type { Message } from './wire.js';

/** Turns what a cell says into messages for the front ends. */
export interface Publisher {
  say(message: CellMessage, to: Message | null, count: number): void;
}

export function createPublisher(publish: (type: string, content: object, to: Message | null) => void): Publisher {
  return {
    say(message, to, count) {
      if (message.kind === 'stream') publish('stream', { name: message.name, text: message.text }, to);
      else if (message.kind === 'clear') publish('clear_output', { wait: message.wait }, to);
      else if (message.kind === 'error')
        publish('error', { ename: message.ename, evalue: message.evalue, traceback: message.traceback }, to);
      else if (message.kind === 'result')
        publish('execute_result', { execution_count: count, data: textual(message.data), metadata: {} }, to);
      else {
        const transient = message.id === undefined ? {} : { display_id: message.id };
        const type = message.update ? 'update_display_data' : 'display_data';
        publish(type, { data: textual(message.data), metadata: message.metadata, transient }, to);
      }
    },
  };
}
