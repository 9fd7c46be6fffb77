import { createHash } from 'node:crypto';
import { mkdir, readFile, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { z } from 'zod';
import { writeAtomically, type AudioFileInfo } from '../audio/index.js';
import type { Identity } from './cache.js';
import type { TrackOutline } from './outline.js';

/**
 * What is known of the files of a folder without opening them: whoever has the size and the time of change that were
 * remembered is the file that was read then. It stands beside the analyses and is as disposable as they are; two
 * programs that write it at once lose time only.
 */
export interface Catalogue {
  /** What opening this file would tell; `null` when that is not known. */
  info(file: string): Promise<AudioFileInfo | null>;
  /** The outline of this file's analysis, if it was made by exactly this program and these options. */
  outline(file: string, identity: Identity): Promise<TrackOutline | null>;
  remember(file: string, info: AudioFileInfo, outline?: { identity: Identity; of: TrackOutline }): Promise<void>;
  /** Writes down what is new. A folder that cannot be written to is passed over. */
  save(): Promise<void>;
}

const NAME = 'catalogue.json';
/** 2: outlines carry what the question about the tempo rests on. */
const VERSION = 2;

/** Only what decides whether an entry can be used is checked; the rest was written by `remember`. */
const entrySchema = z.object({
  size: z.number(),
  modified: z.number(),
  info: z.looseObject({ audioDigest: z.string(), durationSeconds: z.number(), tags: z.looseObject({}) }),
  outlines: z.record(z.string(), z.looseObject({ phrases: z.array(z.looseObject({})) })),
});
const catalogueSchema = z.object({ version: z.literal(VERSION), files: z.record(z.string(), entrySchema) });

interface Entry {
  size: number;
  modified: number;
  info: Omit<AudioFileInfo, 'file'>;
  outlines: Record<string, Omit<TrackOutline, 'source'>>;
}

/** Readings by different corrections and options that are kept of one file. */
const OUTLINES_KEPT = 4;

/** Tracks after which it is written down, so that a run that is killed loses little. */
const TRACKS_BETWEEN_SAVES = 50;
/** It is written as a whole: the more is in it, the longer between two times, or a large crate is all writing. */
const SHARE_BETWEEN_SAVES = 0.1;

/** Whether it is time to write it down, after so many tracks, of which so many were done the last time. */
export function isDue(done: number, saved: number): boolean {
  return done - saved >= Math.max(TRACKS_BETWEEN_SAVES, done * SHARE_BETWEEN_SAVES);
}

/** A catalogue per cache folder, read when the first of its files is asked for. */
export function openCatalogue(folderOf: (file: string) => string): Catalogue {
  const shelves = new Map<string, Promise<Shelf>>();
  const shelf = (file: string): Promise<Shelf> => {
    const folder = folderOf(file);
    const opened = shelves.get(folder) ?? openShelf(folder);
    shelves.set(folder, opened);
    return opened;
  };
  const known = async (file: string): Promise<Entry | null> => {
    const entry = (await shelf(file)).files.get(nameIn(folderOf(file), file));
    if (!entry) return null;
    const now = await stat(file).catch(() => null);
    return now?.size === entry.size && now.mtimeMs === entry.modified ? entry : null;
  };
  return {
    async info(file) {
      const entry = await known(file);
      return entry && { ...entry.info, file };
    },
    async outline(file, identity) {
      const entry = await known(file);
      const outline = entry?.outlines[key(identity)];
      return entry && outline ? { ...outline, source: { ...entry.info, file } } : null;
    },
    async remember(file, about, made) {
      const info = without(about, 'file');
      const now = await stat(file).catch(() => null);
      if (!now) return;
      const at = await shelf(file);
      const name = nameIn(folderOf(file), file);
      const before = at.files.get(name);
      const kept = before?.info.audioDigest === info.audioDigest ? Object.entries(before.outlines) : [];
      const outlines = made
        ? [...kept.filter(([k]) => k !== key(made.identity)), [key(made.identity), without(made.of, 'source')]]
        : kept;
      at.files.set(name, {
        size: now.size,
        modified: now.mtimeMs,
        info,
        outlines: Object.fromEntries(outlines.slice(-OUTLINES_KEPT)) as Entry['outlines'],
      });
      at.changed = true;
    },
    async save() {
      for (const opened of shelves.values()) await saveShelf(await opened);
    },
  };
}

interface Shelf {
  readonly place: string;
  readonly files: Map<string, Entry>;
  changed: boolean;
}

async function openShelf(folder: string): Promise<Shelf> {
  const place = join(folder, NAME);
  return { place, files: await readShelf(place), changed: false };
}

async function readShelf(place: string): Promise<Map<string, Entry>> {
  try {
    const parsed = catalogueSchema.safeParse(JSON.parse(await readFile(place, 'utf8')));
    return new Map(parsed.success ? Object.entries(parsed.data.files as unknown as Record<string, Entry>) : []);
  } catch {
    return new Map();
  }
}

async function saveShelf(shelf: Shelf): Promise<void> {
  if (!shelf.changed) return;
  // Somebody else may have written since it was read: what is theirs alone is kept.
  const files = { ...Object.fromEntries(await readShelf(shelf.place)), ...Object.fromEntries(shelf.files) };
  const text = JSON.stringify({ version: VERSION, files });
  shelf.changed = false;
  await mkdir(dirname(shelf.place), { recursive: true }).catch(() => undefined);
  await writeAtomically(shelf.place, [new TextEncoder().encode(text)]).catch(() => undefined);
}

/** Files beside the folder go by their name, so that moving the whole crate costs nothing; others by their path. */
function nameIn(folder: string, file: string): string {
  return resolve(dirname(file)) === resolve(dirname(folder)) ? basename(file) : resolve(file);
}

function key(identity: Identity): string {
  return createHash('sha256').update(Object.values(identity).join(' ')).digest('hex').slice(0, 16);
}

function without<T extends object, K extends keyof T>(value: T, name: K): Omit<T, K> {
  const copy = { ...value };
  delete (copy as Partial<T>)[name];
  return copy;
}
