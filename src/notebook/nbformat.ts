/** A value by MIME type: text, base64 for pictures, plain data for JSON types. */
export type MimeBundle = Readonly<Record<string, unknown>>;

export interface StreamOutput {
  readonly output_type: 'stream';
  readonly name: 'stdout' | 'stderr';
  readonly text: string;
}
export interface DisplayOutput {
  readonly output_type: 'display_data';
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
}
export interface ResultOutput {
  readonly output_type: 'execute_result';
  readonly execution_count: number | null;
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
}
export interface ErrorOutput {
  readonly output_type: 'error';
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}
export type Output = StreamOutput | DisplayOutput | ResultOutput | ErrorOutput;

export interface CellMetadata {
  readonly tags?: readonly string[];
  readonly [key: string]: unknown;
}
export interface MarkdownCell {
  readonly cell_type: 'markdown' | 'raw';
  readonly id: string;
  readonly metadata: CellMetadata;
  readonly source: string;
  readonly attachments?: Readonly<Record<string, MimeBundle>>;
}
export interface CodeCell {
  readonly cell_type: 'code';
  readonly id: string;
  readonly metadata: CellMetadata;
  readonly source: string;
  readonly execution_count: number | null;
  readonly outputs: readonly Output[];
}
export type Cell = MarkdownCell | CodeCell;

/** A notebook in memory, after version 4.5 of the format; texts are joined to one string. */
export interface Notebook {
  readonly nbformat: 4;
  readonly nbformat_minor: 5;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly cells: readonly Cell[];
}
