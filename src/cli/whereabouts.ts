import { resolve } from 'node:path';
import type { TrackOutline } from '../crate/index.js';

/** Knows which track lies where, and tells a track that is moved from one that is deleted and another that comes. */
export interface Whereabouts {
  /** A track was read. @returns whether it is news; where it only moved, that is said. */
  comes(track: TrackOutline): boolean;
  /** A file is not there any more. */
  goes(file: string): void;
  /** Says at once what it still waits with. */
  end(): void;
}

/** A file that was moved turns up at its new place within this time. */
const MOVING_MS = 6000;

/** Starts from the tracks of a crate. */
export function whereabouts(
  known: readonly TrackOutline[],
  tell: (sentence: string) => void,
  patience = MOVING_MS,
): Whereabouts {
  const digests = new Map(known.map((t) => [resolve(t.source.file), t.source.audioDigest]));
  const going = new Map<string, { digest: string; timer: NodeJS.Timeout }>();
  const gone = (file: string) => {
    clearTimeout(going.get(file)?.timer);
    if (going.delete(file)) tell(`${file} is gone.`);
  };
  return {
    comes({ source }) {
      const before = digests.get(resolve(source.file));
      digests.set(resolve(source.file), source.audioDigest);
      // Deleted and written again in one go, as some programs save.
      clearTimeout(going.get(source.file)?.timer);
      const back = going.get(source.file);
      going.delete(source.file);
      if (before === source.audioDigest || back?.digest === source.audioDigest) return false;
      const [from] = [...going].find(([, { digest }]) => digest === source.audioDigest) ?? [];
      if (from === undefined) return true;
      clearTimeout(going.get(from)?.timer);
      going.delete(from);
      tell(`${from} is now ${source.file}.`);
      return false;
    },
    goes(file) {
      const digest = digests.get(resolve(file));
      if (digest === undefined) return;
      digests.delete(resolve(file));
      going.set(file, { digest, timer: setTimeout(() => gone(file), patience) });
    },
    end: () => [...going.keys()].forEach(gone),
  };
}
