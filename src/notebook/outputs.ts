import type { MimeBundle, Output } from './nbformat.js';

/** What a running cell says, in the order in which it says it. */
export type CellMessage =
  | { readonly kind: 'stream'; readonly name: 'stdout' | 'stderr'; readonly text: string }
  | {
      readonly kind: 'display';
      readonly data: MimeBundle;
      readonly metadata: Readonly<Record<string, unknown>>;
      readonly id?: string | undefined;
      readonly update?: boolean | undefined;
    }
  | { readonly kind: 'result'; readonly data: MimeBundle }
  | { readonly kind: 'clear'; readonly wait: boolean }
  | { readonly kind: 'error'; readonly ename: string; readonly evalue: string; readonly traceback: readonly string[] };

/** A cell that prints in an endless loop must not fill the memory or the file: 1 MB of text is kept. */
const MOST_TEXT = 1_000_000;

/** Gathers the messages of one cell into its outputs. */
export interface OutputCollector {
  add(message: CellMessage): void;
  outputs(): Output[];
}

/** @param executionCount of the cell */
export function collectOutputs(executionCount: number): OutputCollector {
  const outputs: { output: Output; id?: string | undefined }[] = [];
  let room = MOST_TEXT;

  function addText(name: 'stdout' | 'stderr', text: string): void {
    if (room < 0) return;
    const kept =
      text.length <= room ? text : `${text.slice(0, room)}\n… the rest is left out: the cell prints too much.\n`;
    room -= text.length;
    const last = outputs[outputs.length - 1]?.output;
    if (last?.output_type === 'stream' && last.name === name)
      outputs[outputs.length - 1] = { output: { ...last, text: last.text + kept } };
    else outputs.push({ output: { output_type: 'stream', name, text: kept } });
  }

  return {
    add(message) {
      if (message.kind === 'stream') addText(message.name, message.text);
      else if (message.kind === 'display') {
        const output: Output = { output_type: 'display_data', data: textual(message.data), metadata: message.metadata };
        const shown = outputs.filter((o) => message.id !== undefined && o.id === message.id);
        if (message.update) for (const entry of shown) entry.output = output;
        else outputs.push({ output, id: message.id });
      } else if (message.kind === 'result') {
        const data = textual(message.data);
        outputs.push({
          output: { output_type: 'execute_result', execution_count: executionCount, data, metadata: {} },
        });
      } else if (message.kind === 'clear') outputs.length = 0;
      else {
        const { ename, evalue, traceback } = message;
        outputs.push({ output: { output_type: 'error', ename, evalue, traceback: [...traceback] } });
      }
    },
    outputs: () =>
      outputs
        .map(({ output }) => (output.output_type === 'stream' ? { ...output, text: overwritten(output.text) } : output))
        // A progress bar that has taken itself away leaves nothing.
        .filter((output) => output.output_type !== 'stream' || output.text !== ''),
  };
}

/** What is left on a terminal: a carriage return starts the line anew, as progress bars do. */
function overwritten(text: string): string {
  return text
    .split('\n')
    .map((line) => {
      const kept = line.replace(/\r+$/, '');
      // Spaces that go over what stood there before leave nothing.
      return kept.includes('\r') ? kept.slice(kept.lastIndexOf('\r') + 1).trimEnd() : kept;
    })
    .join('\n');
}

/** Bytes become base64, the only way the format stores them. */
export function textual(data: MimeBundle): MimeBundle {
  return Object.fromEntries(
    Object.entries(data).map(([type, value]) => [
      type,
      value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value,
    ]),
  );
}
