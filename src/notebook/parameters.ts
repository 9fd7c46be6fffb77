import { BarwiseError } from '../units/index.js';
import type { Cell, CodeCell, Notebook } from './nbformat.js';

/** A value that a notebook can be run with. @experimental */
export type ParameterValue = string | number | boolean | null | readonly ParameterValue[];
/** Values by the names that the cell tagged `parameters` declares. @experimental */
export type Parameters = Readonly<Record<string, ParameterValue>>;

const TAG = 'parameters';
const INJECTED_TAG = 'injected-parameters';
const DECLARATION = /^\s*(?:let|var|const)\s+([A-Za-z_$][\w$]*)/gm;

/** The names that the cell tagged `parameters` declares. @experimental */
export function parameterNames(notebook: Notebook): string[] {
  const cell = notebook.cells.find((c) => hasTag(c, TAG));
  return cell ? [...cell.source.matchAll(DECLARATION)].map(([, name]) => name) : [];
}

/**
 * The notebook with the values in a new cell tagged `injected-parameters` after the one tagged `parameters` (the usage
 * of papermill, nteract); an older injected cell is replaced.
 * @experimental
 * @throws BarwiseError `bad-option` for a name that the notebook does not declare
 */
export function withParameters(notebook: Notebook, parameters: Parameters): Notebook {
  const cells = notebook.cells.filter((cell) => !hasTag(cell, INJECTED_TAG));
  const given = Object.entries(parameters);
  if (given.length === 0) return { ...notebook, cells };
  const names = parameterNames(notebook);
  const unknown = given.find(([name]) => !names.includes(name));
  if (unknown) {
    const known = names.length > 0 ? `it has ${names.join(', ')}` : 'it has none';
    throw new BarwiseError('bad-option', `The notebook has no parameter ${unknown[0]}: ${known}.`);
  }
  const source = ['// Values given for this run', ...given.map(([name, value]) => `let ${name} = ${literal(value)};`)];
  const injected: CodeCell = {
    cell_type: 'code',
    id: freeId(cells),
    metadata: { tags: [INJECTED_TAG] },
    source: source.join('\n'),
    execution_count: null,
    outputs: [],
  };
  const at = cells.findIndex((cell) => hasTag(cell, TAG)) + 1;
  return { ...notebook, cells: [...cells.slice(0, at), injected, ...cells.slice(at)] };
}

function hasTag(cell: Cell, tag: string): boolean {
  return cell.cell_type === 'code' && (cell.metadata.tags ?? []).includes(tag);
}

/** JSON is TypeScript, once the two line separators that only JSON allows in strings are escaped. */
function literal(value: ParameterValue): string {
  return JSON.stringify(value).replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');
}

function freeId(cells: readonly Cell[]): string {
  let id = INJECTED_TAG;
  for (let n = 2; cells.some((cell) => cell.id === id); n++) id = `${INJECTED_TAG}-${n}`;
  return id;
}
