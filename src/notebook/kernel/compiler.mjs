// The TypeScript that tslab compiles cells with, set to what the library needs and watched, so that a place in the code
// that ran can be told as a line of the cell that was written.
import { createRequire, SourceMap } from 'node:module';
import vm from 'node:vm';
import { lookIntoFolders } from './folders.mjs';
import { PHASE } from './phase.mjs';
import { queueRebuilds } from './rebuilds.mjs';

/** tslab puts one line in front of every cell. */
const LINES_BEFORE = 1;
const MAP_COMMENT = /\n\/\/# sourceMappingURL=(\S+)\s*$/;
const INLINE = 'data:application/json;base64,';
const PLACE = /cell-(\d+)\.ts:(\d+):(\d+)/;

/**
 * @param require of this package; to be called before anything else of tslab is loaded
 * @param setPhase is told when the code of a cell begins to run, and when it has run to its first await
 */
export function useOurCompiler(require, setPhase) {
  const nested = createRequire(require.resolve('tslab'));
  const typescript = nested('@tslab/typescript-for-tslab');
  const sources = new Map();
  const maps = new Map();
  const additions = new Map();
  let current = 0;
  let lookAgain = () => undefined;

  // The compiler's own exports cannot be written to, so tslab is given a copy of them.
  nested.cache[nested.resolve('@tslab/typescript-for-tslab')].exports = {
    ...typescript,
    // Modern resolution knows the `exports` of a package.json; tslab itself asks for the one before it.
    createWatchCompilerHost: (files, given, sys, ...rest) => {
      const options = { ...given, moduleResolution: typescript.ModuleResolutionKind.Bundler, inlineSourceMap: true };
      const host = queueRebuilds(typescript.createWatchCompilerHost(files, options, sys, ...rest), sys);
      lookAgain = lookIntoFolders(host);
      return host;
    },
    // tslab compiles twice: to ES modules, whose map stands in the text, and those to CommonJS.
    transpileModule: (text, options) => {
      const inline = MAP_COMMENT.exec(text)?.[1];
      const compilerOptions = { ...options.compilerOptions, sourceMap: true };
      const result = typescript.transpileModule(text.replace(MAP_COMMENT, '\n'), { ...options, compilerOptions });
      if (inline?.startsWith(INLINE) && result.sourceMapText) {
        const first = JSON.parse(Buffer.from(inline.slice(INLINE.length), 'base64').toString());
        maps.set(current, [new SourceMap(JSON.parse(result.sourceMapText)), new SourceMap(first)]);
      }
      return { ...result, outputText: result.outputText.replace(MAP_COMMENT, '\n') };
    },
  };
  const { runInThisContext } = vm;
  vm.runInThisContext = (code, options) => {
    if (!options?.breakOnSigint) return runInThisContext(code, options);
    setPhase(PHASE.running);
    try {
      return runInThisContext(code, { ...options, filename: `cell-${current}.ts` });
    } finally {
      setPhase(PHASE.waiting);
    }
  };

  return {
    /** Says which cell is compiled and run from here on, takes in what was installed, and gives the code to compile. */
    start(cell, source) {
      lookAgain();
      current = cell;
      sources.set(cell, source);
      const { code, added } = spelledOut(typescript, source);
      additions.set(cell, added);
      return code;
    },
    /** A column of the code that is compiled as a column of the cell, both from 1. */
    columnOf: (cell, line, column) => writtenColumn(additions.get(cell), line, column),
    /** The place in a cell that a line of a stack names: cell, line, column, from 1; `null` when it lies elsewhere. */
    placeOf(frame) {
      const found = PLACE.exec(frame);
      if (!found) return null;
      const [cell, line, column] = found.slice(1).map(Number);
      const place = written(maps.get(cell), line - 1, column - 1);
      return { cell, line: place.line, column: writtenColumn(additions.get(cell), place.line, place.column) };
    },
    /** A line of a cell as it was written. */
    lineOf: (cell, line) => sources.get(cell)?.split('\n')[line - 1],
    canParse: (code) =>
      typescript.createSourceFile('cell.ts', code, typescript.ScriptTarget.Latest).parseDiagnostics.length === 0,
  };
}

/** Goes back through both compilations. */
function written(maps, line, column) {
  let place = { line, column };
  for (const map of maps ?? []) {
    const { originalLine, originalColumn } = map.findEntry(place.line, place.column);
    if (originalLine === undefined) return { line: null, column: null };
    place = { line: originalLine, column: originalColumn };
  }
  return { line: place.line - LINES_BEFORE + 1, column: place.column + 1 };
}

/**
 * `{ bars }` as `{ bars: bars }`: tslab makes names of earlier cells into properties of an object, and overlooks those
 * that stand for themselves. What is added on a line is kept, so that columns can be told as they were written.
 */
function spelledOut(typescript, source) {
  const file = typescript.createSourceFile('cell.ts', source, typescript.ScriptTarget.Latest, true);
  const found = [];
  const visit = (node) => {
    if (typescript.isShorthandPropertyAssignment(node)) found.push({ at: node.name.end, name: node.name.text });
    typescript.forEachChild(node, visit);
  };
  visit(file);
  const added = found.map(({ at, name }) => {
    const { line, character } = file.getLineAndCharacterOfPosition(at);
    return { line: line + 1, column: character + 1, length: name.length + 2 };
  });
  let code = source;
  for (const { at, name } of found.reverse()) code = `${code.slice(0, at)}: ${name}${code.slice(at)}`;
  return { code, added };
}

function writtenColumn(added, line, column) {
  let shift = 0;
  for (const { length, ...place } of added ?? []) {
    if (place.line !== line || column - shift <= place.column) continue;
    shift += Math.min(length, column - shift - place.column);
  }
  return column === null ? null : column - shift;
}
