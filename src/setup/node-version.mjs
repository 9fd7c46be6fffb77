/** The oldest Node that can run Barwise: from 20.19 on, CommonJS may require ES modules, which the notebooks need. */
export const NEEDED = [20, 19];

/** One sentence when this Node is too old, `null` when it will do. `version` is as in `process.versions.node`. */
export function nodeComplaint(version) {
  const [major, minor] = version.split('.').map(Number);
  if (major > NEEDED[0] || (major === NEEDED[0] && minor >= NEEDED[1])) return null;
  return `Barwise needs Node ${NEEDED.join('.')} or newer, and this is Node ${version}: install a newer Node and run the command again.`;
}
