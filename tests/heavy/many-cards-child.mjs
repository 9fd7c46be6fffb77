import { createWriteStream, readFileSync } from 'node:fs';
import { printCards } from 'barwise/reports';

// Prints the tracks of a file again and again until there are as many cards as asked for, in a process of its own with
// the program as it is built, and tells its peak memory in megabytes.
const [source, target, count, options] = process.argv.slice(2);
const kinds = JSON.parse(readFileSync(source, 'utf8'));
const tracks = Array.from({ length: Number(count) }, (_, i) => structuredClone(kinds[i % kinds.length]));
const from = performance.now();
const { pages } = await printCards(tracks, createWriteStream(target), JSON.parse(options));
const seconds = (performance.now() - from) / 1000;
process.stdout.write(JSON.stringify({ pages, seconds, megabytes: process.resourceUsage().maxRSS / 1024 }));
