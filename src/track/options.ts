import { createHash } from 'node:crypto';
import type { AudioWarning } from '../audio/index.js';
import type { FormConstraints } from '../form/index.js';
import type { GridConstraints } from '../rhythm/index.js';
import type { RunOptions } from '../units/index.js';
import type { Correction } from './corrections/correction.js';

/** A person's word on a track; the stages are run under it, results are never patched. @public */
export interface Constraints {
  readonly grid?: GridConstraints;
  readonly form?: FormConstraints;
}

/** How to analyse a track. @public */
export interface AnalyseOptions extends RunOptions {
  /** What is asked for in this run only; it stands over the corrections. */
  readonly constraints?: Constraints;
  /** What somebody has said about the track. Default: what their corrections file says; `[]` for nothing. */
  readonly corrections?: readonly Correction[];
  /** Where corrections are kept; default: the person's own folder (see `correctionsFolder`). */
  readonly correctionsFolder?: string | undefined;
  /** Which decoders may be used; `auto` takes the native one where it loads. */
  readonly decoder?: 'auto' | 'native' | 'wasm';
  /** Called for each thing about the file that the user should know; they are also stored in `source.warnings`. */
  readonly onWarning?: (warning: AudioWarning) => void;
}

/** A short digest of plain data that does not depend on the order of keys; empty data gives `none`. @experimental */
export function digestOf(value: unknown): string {
  const text = JSON.stringify(sorted(value)) ?? '';
  if (text === '' || text === '{}') return 'none';
  return createHash('sha256').update(text).digest('hex').slice(0, 16);
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).filter(([, v]) => v !== undefined && !isEmpty(v));
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([k, v]) => [k, sorted(v)]));
}

function isEmpty(value: unknown): boolean {
  return value !== null && typeof value === 'object' && Object.keys(value).length === 0;
}
