/**
 * Notebooks: running them without Jupyter, the kernel for Jupyter, and what cells show.
 *
 * @module barwise/notebook
 */
export { runNotebook, type NotebookResult, type NotebookRun } from './run.js';
export { parameterNames, withParameters, type Parameters, type ParameterValue } from './parameters.js';
export { packageFolder } from './home.js';
export { notebookToHtml, type HtmlOptions } from './html.js';
export { parseNotebook, readNotebook } from './read.js';
export { formatNotebook, writeNotebook } from './write.js';
export type * from './nbformat.js';
export { bundleOf, chart, show, VEGA_LITE_MIME } from './display.js';
export { clearOutput, progress } from './cell.js';
export type { Display } from './ready.js';
export { trackName, trackSummary } from './summary.js';
export { beatTable, countTable } from './counttable.js';
export { barTable, breaks, story } from './storydisplay.js';
export { changesTable, correct, readingsTable, undo, type Corrected } from './correcting.js';
export { player, type PlayerOptions } from './player.js';
export { leanNotebook } from './lean.js';
export { ladder } from './ladderdisplay.js';
export { demoTruth, scoreTable, type ScoredTrack } from './accuracy.js';
export { questionsFor, quiz, type Question } from './quiz.js';
/** Scores against what is true, as cells have them: `evaluation.scoreTrack(…)`. */
export * as evaluation from '../evaluation/index.js';
export { listen, planStory, planTable } from './matchdisplay.js';
/** Practice audio, as cells make it: `practice.rehearse(…)`. */
export * as practice from '../practice/index.js';
export { demoTrack, demoTracks } from './demofile.js';
export { serveJupyter, type JupyterKernel } from './jupyter/server.js';
export type { Connection } from './jupyter/sockets.js';
export * from './jupyter/spec.js';
export { findJupyter } from './jupyter/find.js';
