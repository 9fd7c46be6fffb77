import { File } from 'node-taglib-sharp';
import type { DemoTrack } from '../demo-track.js';

/** Writes title, artist, album, year, genre and comment into an audio file, in the way of its format. */
export function writeTags(file: string, track: DemoTrack): void {
  const tagged = File.createFromPath(file);
  try {
    tagged.tag.title = track.title;
    tagged.tag.performers = [track.artist];
    tagged.tag.album = track.album;
    tagged.tag.year = track.year;
    tagged.tag.genres = [track.genre];
    tagged.tag.comment = track.shows;
    tagged.save();
  } finally {
    tagged.dispose();
  }
}
