export { createKeyFinder, type KeyFinder } from './finder.js';
export type { Key, KeyAlternative } from './key.js';
