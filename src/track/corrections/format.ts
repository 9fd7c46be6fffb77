import type { Document, LineCounter } from 'yaml';
import { z } from 'zod';
import { BarwiseError, printable } from '../../units/index.js';
import { bringUp, type VersionedFormat } from '../versions.js';
import { correctionSchema, type Correction, type SaidCorrection } from './correction.js';
import { yaml } from './yaml.js';

/** Version of the file format. 1: as first kept. 2: a correction may say where a bar starts. @public */
export const CORRECTIONS_VERSION = 2;
/** A file of a person's own corrections is never as large as this. */
const MOST_BYTES = 1_000_000;

const HEAD = ` What somebody has said about this track: Barwise counts it so, whatever the file is called and wherever it lies.
 Written by "barwise correct"; you may edit it. Times are seconds from the start of the sound.`;

const DIGEST = /^[0-9a-f]{64}$/;
/** The file around the corrections, closed. */
export const shellSchema = z.strictObject({
  version: z.literal(CORRECTIONS_VERSION),
  audioDigest: z.string().regex(DIGEST).describe('SHA-256 (hex) of the encoded audio without tags'),
  file: z.string().optional().describe('Name of the file when this was written; for the person who reads it'),
  corrections: z.array(z.unknown()).nullable(),
});

/**
 * Files of corrections as they are kept: every version that there was, and how it becomes the next. A step changes the
 * document itself, so that what a person wrote around the corrections stays.
 */
export const CORRECTIONS_FORMAT: VersionedFormat<Document> = {
  name: 'a file of corrections',
  version: CORRECTIONS_VERSION,
  steps: {
    1: (document) => {
      document.set('version', 2);
      return document;
    },
  },
};

/** What a corrections file says. @public */
export interface CorrectionsFile {
  readonly audioDigest: string;
  readonly corrections: SaidCorrection[];
}

/**
 * Reads the text of a corrections file: strict YAML 1.2, no aliases, no tags, nothing unknown.
 * @public
 * @throws BarwiseError `damaged`: one sentence with the line that is wrong
 */
export function parseCorrections(text: string, file: string): CorrectionsFile {
  const { lines, document } = open(text, file);
  const line = (path: readonly PropertyKey[]) => lineOf(document, lines, path);
  const data: unknown = document.toJS({ maxAliasCount: 0 });
  const shell = shellSchema.safeParse(data);
  if (!shell.success) throw wrong(file, shell.error, [], line);
  const corrections = (shell.data.corrections ?? []).map((entry, i): SaidCorrection => {
    const { said = null, from = null, ...rest } = (entry ?? {}) as Record<string, unknown>;
    const when = z.string().max(40).nullable().safeParse(said);
    if (!when.success) throw wrong(file, when.error, ['corrections', i, 'said'], line);
    const whom = z.string().max(400).nullable().safeParse(from);
    if (!whom.success) throw wrong(file, whom.error, ['corrections', i, 'from'], line);
    const parsed = correctionSchema.safeParse(rest);
    if (!parsed.success) throw wrong(file, parsed.error, ['corrections', i], line);
    return { ...parsed.data, said: when.data, from: whom.data };
  });
  return { audioDigest: shell.data.audioDigest, corrections };
}

/** The text of a file that is new. @param name of the track's file, for the person who reads it */
export function newCorrections(audioDigest: string, name: string, corrections: readonly SaidCorrection[]): string {
  const { Document } = yaml();
  const document = new Document({
    version: CORRECTIONS_VERSION,
    audioDigest,
    file: printable(name),
    corrections: corrections.map(entryOf),
  });
  document.commentBefore = HEAD;
  return document.toString({ lineWidth: 0 });
}

/** The same text with corrections in place of its own; what a person wrote around those that stay is kept. */
export function editCorrections(
  text: string,
  file: string,
  edit: { add?: SaidCorrection[]; remove?: readonly number[] },
): string {
  const { document } = open(text, file);
  // From the last one up, so that the numbers of those that follow hold.
  for (const index of [...(edit.remove ?? [])].sort((a, b) => b - a)) document.deleteIn(['corrections', index]);
  for (const correction of edit.add ?? []) {
    if (document.getIn(['corrections', 0]) === undefined) document.setIn(['corrections'], document.createNode([]));
    document.addIn(['corrections'], document.createNode(entryOf(correction)));
  }
  const list = document.getIn(['corrections'], true);
  if (yaml().isNode(list) && 'flow' in list) list.flow = false;
  return document.toString({ lineWidth: 0 });
}

function entryOf({ said, from, ...correction }: SaidCorrection): object {
  return { ...short(correction), ...(said === null ? {} : { said }), ...(from === null ? {} : { from }) };
}

/** Without what goes without saying. */
function short(correction: Correction): object {
  return Object.fromEntries(Object.entries(correction).filter(([name, v]) => !(name === 'function' && v === null)));
}

function open(text: string, file: string): { lines: LineCounter; document: Document.Parsed } {
  if (text.length > MOST_BYTES)
    throw new BarwiseError('damaged', `${file} is too large for a corrections file: move it away.`, { file });
  const { isAlias, isMap, isNode, LineCounter, visit } = yaml();
  const lines = new LineCounter();
  const document = parsedDocument(text, lines, file);
  const problem = document.errors[0] ?? document.warnings[0];
  if (problem) throw damaged(file, problem.linePos?.[0].line ?? 1, firstSentence(problem.message));
  visit(document, (_, node) => {
    if (!isNode(node) || !(isAlias(node) || node.anchor)) return;
    throw damaged(file, lines.linePos(node.range?.[0] ?? 0).line, 'anchors and aliases are not taken');
  });
  // A version that is no whole number is named with its line, as everything else that is wrong.
  const version = isMap(document.contents) ? document.get('version') : undefined;
  if (Number.isInteger(version) && (version as number) > 0)
    bringUp(document as Document, version, CORRECTIONS_FORMAT, file);
  return { lines, document };
}

function parsedDocument(text: string, lineCounter: LineCounter, file: string): Document.Parsed {
  try {
    return yaml().parseDocument(text, { lineCounter, strict: true, uniqueKeys: true, schema: 'core', merge: false });
  } catch {
    // Nothing that a person writes is nested so deeply that the parser gives up.
    throw damaged(file, 1, 'this cannot be read as YAML');
  }
}

/** The line of the value at a path, or of the nearest thing around it that is there. */
function lineOf(document: Document.Parsed, lines: LineCounter, path: readonly PropertyKey[]): number {
  for (let depth = path.length; depth >= 0; depth--) {
    const node = depth === 0 ? document.contents : document.getIn(path.slice(0, depth), true);
    if (yaml().isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return 1;
}

function wrong(file: string, error: z.ZodError, at: readonly PropertyKey[], line: (path: PropertyKey[]) => number) {
  const issue = error.issues[0];
  const path = [...at, ...issue.path];
  const name = path.filter((p) => typeof p === 'string').at(-1) ?? 'it';
  return damaged(
    file,
    line(path),
    `${String(name)}: ${issue.message.charAt(0).toLowerCase()}${issue.message.slice(1)}`,
  );
}

function damaged(file: string, line: number, what: string): BarwiseError {
  return new BarwiseError(
    'damaged',
    `${file}, line ${line}: ${what.replace(/\.$/, '')}; correct that line or move the file away.`,
    {
      file,
    },
  );
}

function firstSentence(message: string): string {
  return message.split(/ at line \d+|\n/)[0].replaceAll(/\s+/g, ' ');
}
