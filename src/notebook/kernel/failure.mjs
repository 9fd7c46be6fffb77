import { inspect } from 'node:util';

const INTERRUPTED = 'Interrupted asynchronously';
/** What vm throws when a signal stops a script. */
const BROKEN_OFF = 'ERR_SCRIPT_EXECUTION_INTERRUPTED';

/** An error of a cell as Jupyter wants it: name, message, and lines that a person can find in the cell. */
export function describeFailure([first, ...others], compiler, cell) {
  const [head] = first;
  if (typeof head === 'string') return describeDiagnostics([first, ...others], compiler, cell);
  if (head?.message === INTERRUPTED || head?.code === BROKEN_OFF) {
    const evalue = 'The cell was interrupted.';
    return { ename: 'Interrupted', evalue, traceback: [evalue] };
  }
  const name = head?.name ?? 'Error';
  const message = head instanceof Error ? head.message : inspect(head);
  if (name === 'SyntaxError' && message === 'Unexpected reserved word') {
    const evalue =
      'A loop with "for await" cannot stand alone in a cell: put it into an async function and await that.';
    return { ename: name, evalue, traceback: [evalue] };
  }
  const text = head instanceof Error || head?.name ? `${name}: ${message}` : `Thrown: ${message}`;
  return { ename: name, evalue: message, traceback: [text, ...placesOf(head, compiler, cell)] };
}

/** What the compiler has to say: line, column, sentence, and the line it is about. */
function describeDiagnostics(diagnostics, compiler, cell) {
  const traceback = diagnostics.flatMap(([, , line, compiled, message]) => {
    const column = compiler.columnOf(cell, line, compiled);
    return [`line ${line}, column ${column}: ${message}`, ...quote(compiler.lineOf(cell, line), line, column)];
  });
  return { ename: 'TypeScriptError', evalue: String(diagnostics[0].at(-1)), traceback };
}

/** The places in cells; those in the kernel and in packages tell a reader nothing. */
function placesOf(error, compiler, cell) {
  const frames = String(error?.stack ?? '').split('\n');
  const places = frames.flatMap((frame) => {
    const place = compiler.placeOf(frame);
    if (!place || place.line === null) return [];
    const inside = /^\s*at (?:async )?(?:new )?([\w$.]+) \(/.exec(frame)?.[1];
    const name = inside?.replace(/^Proxy\./, '');
    return [{ ...place, inside: name === undefined || name === 'eval' ? '' : ` in ${name}` }];
  });
  const isNew = (place, i) => i === 0 || place.cell !== places[i - 1].cell || place.line !== places[i - 1].line;
  return places.filter(isNew).flatMap((place, i) => {
    const where = place.cell === cell ? 'this cell' : `cell ${place.cell}`;
    const line = `  line ${place.line} of ${where}${place.inside}`;
    return i === 0 ? [line, ...quote(compiler.lineOf(place.cell, place.line), place.line, place.column)] : [line];
  });
}

function quote(source, line, column) {
  if (source === undefined) return [];
  const number = `    ${line} | `;
  return [`${number}${source}`, `${' '.repeat(number.length + column - 1)}^`];
}
