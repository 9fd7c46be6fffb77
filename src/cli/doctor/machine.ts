import { createRequire } from 'node:module';
import { availableParallelism, freemem, totalmem } from 'node:os';
import { ill, note, well, type Finding } from './finding.js';

const { engines } = createRequire(import.meta.url)('barwise/package.json') as { engines: { node: string } };
/** What one analysis may need at most. */
const ENOUGH_MEMORY = 1e9;

/** Node, cores and memory. */
export function checkMachine(): Finding[] {
  const needed = /\d+(\.\d+)*/.exec(engines.node)?.[0] ?? '0';
  const { node } = process.versions;
  const gigabytes = (bytes: number) => `${(bytes / 1e9).toFixed(1)} GB`;
  const memory = `${gigabytes(totalmem())}, ${gigabytes(freemem())} of it free`;
  return [
    atLeast(node, needed)
      ? well('Node', node)
      : ill('Node', `${node}, and ${needed} is needed`, 'install a newer Node from nodejs.org or your system'),
    well('cores', `${availableParallelism()}`),
    totalmem() < ENOUGH_MEMORY
      ? note('memory', memory, 'analyse one track at a time: --jobs 1')
      : well('memory', memory),
  ];
}

/** Whether a version with numbers and dots is another or later. */
export function atLeast(version: string, other: string): boolean {
  const [a, b] = [version, other].map((v) => v.split('.').map(Number));
  for (let i = 0; i < b.length; i++) if ((a[i] ?? 0) !== b[i]) return (a[i] ?? 0) > b[i];
  return true;
}
