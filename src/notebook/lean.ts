import { VEGA_LITE_MIME } from './display.js';
import type { MimeBundle, Notebook, Output } from './nbformat.js';
import { PLAYER_MARK } from './player.js';

/**
 * An executed notebook made small, for keeping beside code: charts as pictures without their data, no sound.
 * @experimental
 */
export function leanNotebook(notebook: Notebook): Notebook {
  const cells = notebook.cells.map((cell) =>
    cell.cell_type === 'code' ? { ...cell, outputs: cell.outputs.map(leanOutput) } : cell,
  );
  return { ...notebook, cells };
}

function leanOutput(output: Output): Output {
  if (output.output_type !== 'display_data' && output.output_type !== 'execute_result') return output;
  return { ...output, data: leanBundle(output.data) };
}

function leanBundle(data: MimeBundle): MimeBundle {
  const html = data['text/html'];
  const hasSound = typeof html === 'string' && html.includes(PLAYER_MARK);
  const isKept = ([type]: [string, unknown]) =>
    !(type === VEGA_LITE_MIME && 'image/svg+xml' in data) && !(hasSound && type === 'text/html');
  const kept = Object.fromEntries(Object.entries(data).filter(isKept));
  return hasSound ? { 'text/plain': `${String(data['text/plain'])}. Run this cell to hear it.` } : kept;
}
