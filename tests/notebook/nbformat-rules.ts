/**
 * The rules of notebook format 4.5, restated from its published JSON schema (Jupyter project, nbformat/v4/
 * nbformat.v4.5.schema.json, BSD-3-Clause) and the section "The Notebook file format" of its documentation: required and
 * allowed keys of each object, cell ids, texts as strings or lists of strings, outputs by type.
 */
export function nbformatProblems(notebook: unknown): string[] {
  const problems: string[] = [];
  const top = record(notebook);
  exactly(top, ['metadata', 'nbformat_minor', 'nbformat', 'cells'], [], 'notebook', problems);
  if (top['nbformat'] !== 4) problems.push('notebook: nbformat is not 4');
  if (typeof top['nbformat_minor'] !== 'number' || top['nbformat_minor'] < 5) problems.push('notebook: minor below 5');
  const { kernelspec, language_info: language } = record(top['metadata']);
  if (kernelspec !== undefined)
    for (const key of ['name', 'display_name'])
      if (typeof record(kernelspec)[key] !== 'string') problems.push(`kernelspec: no ${key}`);
  if (language !== undefined && typeof record(language)['name'] !== 'string') problems.push('language_info: no name');
  const ids = new Set<unknown>();
  list(top['cells']).forEach((cell, i) => cellProblems(record(cell), `cell ${i + 1}`, ids, problems));
  return problems;
}

function cellProblems(cell: Record<string, unknown>, where: string, ids: Set<unknown>, problems: string[]): void {
  const common = ['id', 'cell_type', 'metadata', 'source'];
  const { cell_type: type, id } = cell;
  if (type === 'code') exactly(cell, [...common, 'outputs', 'execution_count'], [], where, problems);
  else if (type === 'markdown' || type === 'raw') exactly(cell, common, ['attachments'], where, problems);
  else problems.push(`${where}: no such cell type`);
  if (typeof id !== 'string' || !/^[a-zA-Z0-9-_]{1,64}$/.test(id)) problems.push(`${where}: bad id`);
  if (ids.has(id)) problems.push(`${where}: the id ${String(id)} is used twice`);
  ids.add(id);
  if (!isText(cell['source'])) problems.push(`${where}: source is no text`);
  const { tags } = record(cell['metadata']);
  if (tags !== undefined) {
    const bad = list(tags).some((tag) => typeof tag !== 'string' || tag.includes(','));
    if (bad || new Set(list(tags)).size !== list(tags).length) problems.push(`${where}: bad tags`);
  }
  if (type !== 'code') return;
  if (!isCount(cell['execution_count'])) problems.push(`${where}: bad execution count`);
  list(cell['outputs']).forEach((output, i) => outputProblems(record(output), `${where}, output ${i + 1}`, problems));
}

function outputProblems(output: Record<string, unknown>, where: string, problems: string[]): void {
  const { output_type: type } = output;
  if (type === 'stream') {
    exactly(output, ['output_type', 'name', 'text'], [], where, problems);
    if (typeof output['name'] !== 'string' || !isText(output['text'])) problems.push(`${where}: bad stream`);
  } else if (type === 'display_data' || type === 'execute_result') {
    const count = type === 'execute_result' ? ['execution_count'] : [];
    exactly(output, ['output_type', 'data', 'metadata', ...count], [], where, problems);
    if (type === 'execute_result' && !isCount(output['execution_count'])) problems.push(`${where}: bad count`);
    for (const [mime, value] of Object.entries(record(output['data']))) {
      const isJson = mime === 'application/json' || /^application\/.*\+json$/.test(mime);
      if (!isJson && !isText(value)) problems.push(`${where}: ${mime} is no text`);
    }
  } else if (type === 'error') {
    exactly(output, ['output_type', 'ename', 'evalue', 'traceback'], [], where, problems);
    if (!list(output['traceback']).every((line) => typeof line === 'string')) problems.push(`${where}: bad traceback`);
  } else problems.push(`${where}: no such output type`);
}

function exactly(
  value: Record<string, unknown>,
  required: readonly string[],
  optional: readonly string[],
  where: string,
  problems: string[],
): void {
  for (const key of required) if (!(key in value)) problems.push(`${where}: ${key} is missing`);
  for (const key of Object.keys(value))
    if (!required.includes(key) && !optional.includes(key)) problems.push(`${where}: ${key} is not allowed`);
}

function record(value: unknown): Record<string, unknown> {
  return value !== null && typeof value === 'object' && !Array.isArray(value) ? (value as Record<string, unknown>) : {};
}

function list(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function isText(value: unknown): boolean {
  return typeof value === 'string' || (Array.isArray(value) && value.every((line) => typeof line === 'string'));
}

function isCount(value: unknown): boolean {
  return value === null || (typeof value === 'number' && Number.isInteger(value) && value >= 0);
}
