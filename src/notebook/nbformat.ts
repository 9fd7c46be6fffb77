/** A value by MIME type: text, base64 for pictures, plain data for JSON types. @experimental */
export type MimeBundle = Readonly<Record<string, unknown>>;

/** What a cell printed. @experimental */
export interface StreamOutput {
  readonly output_type: 'stream';
  readonly name: 'stdout' | 'stderr';
  readonly text: string;
}
/** What a cell showed on its way. @experimental */
export interface DisplayOutput {
  readonly output_type: 'display_data';
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
}
/** The value of the last expression of a cell. @experimental */
export interface ResultOutput {
  readonly output_type: 'execute_result';
  readonly execution_count: number | null;
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
}
/** What stopped a cell: the name of the error, its message, and where it arose, line by line. @experimental */
export interface ErrorOutput {
  readonly output_type: 'error';
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}
/** Anything that stands below a cell. @experimental */
export type Output = StreamOutput | DisplayOutput | ResultOutput | ErrorOutput;

/** What is known of a cell beside its text; `tags` such as `parameters`. @experimental */
export interface CellMetadata {
  readonly tags?: readonly string[];
  readonly [key: string]: unknown;
}
/** A cell of prose, or of text that is passed over. @experimental */
export interface MarkdownCell {
  readonly cell_type: 'markdown' | 'raw';
  readonly id: string;
  readonly metadata: CellMetadata;
  readonly source: string;
  readonly attachments?: Readonly<Record<string, MimeBundle>>;
}
/** A cell of code with what it gave; `execution_count` is null before it has run. @experimental */
export interface CodeCell {
  readonly cell_type: 'code';
  readonly id: string;
  readonly metadata: CellMetadata;
  readonly source: string;
  readonly execution_count: number | null;
  readonly outputs: readonly Output[];
}
/** Any cell of a notebook. @experimental */
export type Cell = MarkdownCell | CodeCell;

/** A notebook in memory, after version 4.5 of the format; texts are joined to one string. @experimental */
export interface Notebook {
  readonly nbformat: 4;
  readonly nbformat_minor: 5;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly cells: readonly Cell[];
}
