import type { MimeBundle } from './nbformat.js';

/**
 * A thing that is ready to be shown: one value by MIME type, richest first; `text/plain` is always there.
 * @experimental
 */
export interface Display {
  readonly bundle: MimeBundle;
}
