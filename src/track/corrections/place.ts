import { homedir } from 'node:os';
import { join } from 'node:path';

/** The variable that names the folder with corrections. @public */
export const CORRECTIONS_VARIABLE = 'BARWISE_CORRECTIONS';

/**
 * The folder that holds a person's corrections: the one that BARWISE_CORRECTIONS names, else a folder of the user's own
 * data (XDG Base Directory Specification 0.8 on Linux, the usual places elsewhere). One file a track, named by the digest
 * of its audio, so that it is found wherever the track has been moved to and whatever it is called.
 * @public
 */
export function correctionsFolder(
  env: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
): string {
  const named = env[CORRECTIONS_VARIABLE];
  if (named) return named;
  const home = env['HOME'] || homedir();
  if (platform === 'win32') return join(env['APPDATA'] || join(home, 'AppData', 'Roaming'), 'barwise', 'corrections');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'barwise', 'corrections');
  return join(env['XDG_DATA_HOME'] || join(home, '.local', 'share'), 'barwise', 'corrections');
}

/** The file with the corrections of a track. @public */
export function correctionsFile(audioDigest: string, folder: string = correctionsFolder()): string {
  return join(folder, `${audioDigest}.yaml`);
}
