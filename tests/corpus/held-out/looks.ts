import { readFileSync } from 'node:fs';
import { fillBetween } from '../docs.js';

const NAME = 'looks';

/** Adds a line to the log of looks at the locked makers. */
export function logLook(file: URL, reason: string): void {
  const text = readFileSync(file, 'utf8');
  const inside = new RegExp(`<!-- ${NAME}:begin -->([\\s\\S]*?)<!-- ${NAME}:end -->`).exec(text)?.[1].trim() ?? '';
  const line = `- ${new Date().toISOString().slice(0, 10)}: ${reason.trim()}`;
  fillBetween(file, NAME, inside === '' ? line : `${inside}\n${line}`);
}
