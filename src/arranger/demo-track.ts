import type { Arrangement } from './arrangement.js';

/** Formats in which demo files are written. */
export const DEMO_FORMATS = ['wav', 'flac', 'mp3', 'ogg'] as const;
export type DemoFormat = (typeof DEMO_FORMATS)[number];

/** A track of the demo crate: what it shows, its tags and its arrangement. */
export interface DemoTrack {
  /** Name of the file without extension. */
  readonly name: string;
  readonly title: string;
  readonly artist: string;
  readonly album: string;
  readonly year: number;
  readonly genre: string;
  /** What the track is there to show, in one sentence. */
  readonly shows: string;
  readonly format: DemoFormat;
  readonly arrangement: Arrangement;
}

/** A demo track without what all of them share. */
export type DemoForm = Omit<DemoTrack, 'name' | 'album' | 'year'>;
