import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import type { Command } from 'commander';
import { manPage } from '../../src/cli/man/page.js';
import { createProgram } from '../../src/cli/program.js';
import { commandTree, everyCommand } from '../../src/cli/tree.js';
import { barwise } from './support.js';

const silent = { write: () => undefined };
const program = () => createProgram({ stdout: silent, stderr: silent, env: {}, signal: new AbortController().signal }, () => undefined); // prettier-ignore
const tree = commandTree(program());
const nodes = everyCommand(tree).map((node) => [node.path.join(' '), node] as const);

/** The words of an example as a shell would see them, up to a pipe or a redirection. */
function wordsOf(example: string): string[] {
  const own = example.slice(example.indexOf('barwise ')).split(/ {2,}/)[0];
  const words = own.match(/"[^"]*"|[^\s")]+/g) ?? [];
  const end = words.findIndex((w) => /^[|>]$/.test(w));
  return words.slice(1, end < 0 ? undefined : end).map((w) => w.replace(/^"|"$/g, ''));
}

/** Parses a command line with commands that do nothing. Throws where it is wrong. */
async function parse(words: readonly string[]): Promise<string> {
  const root = program();
  let ran = '';
  const idle = (command: Command) => {
    command.commands.forEach(idle);
    if (command.commands.length === 0) command.action(() => void (ran = command.name()));
  };
  root.commands.forEach(idle);
  await root.parseAsync(words, { from: 'user' });
  return ran;
}

describe.each(nodes)('%s --help', (name, node) => {
  it('has an example, and each can be typed', async () => {
    expect(node.examples.length).toBeGreaterThan(0);
    for (const example of node.examples) {
      expect(example).toContain(name === 'barwise' ? 'barwise ' : `${name.split(' ').slice(0, 2).join(' ')}`);
      await expect(parse(wordsOf(example)), example).resolves.not.toBe('');
    }
  });

  it('explains the command, every argument and every option, and shows no insides', async () => {
    const { code, out } = await barwise([...node.path.slice(1), '--help']);
    expect(code).toBe(0);
    expect(node.description.length).toBeGreaterThan(10);
    for (const { description } of [...node.arguments, ...node.options]) expect(description.length).toBeGreaterThan(4);
    expect(out).not.toMatch(/default: \[\]|undefined|display help|help \[command\]/);
    for (const line of out.split('\n').slice(node.examples.length + 2)) expect(line.length).toBeLessThanOrEqual(120);
  });

  it('tells its own options before those it shares', () => {
    const shared = node.options.map((o) => o.group !== null);
    expect(shared.indexOf(true) < 0 || !shared.slice(shared.indexOf(true)).includes(false) || node.options.at(-1)?.long === '--help').toBe(true); // prettier-ignore
  });
});

describe('the manual page', () => {
  const page = manPage(tree, '1.2.3');

  it('names every command, argument and option once under its heading', () => {
    for (const [name, node] of nodes) {
      if (node.commands.length > 0) continue;
      expect(page).toContain(`\n.SS ${name.split(' ').slice(1).join(' ')}\n`);
      for (const o of node.options) if (o.long !== '--help') expect(page).toContain(o.long.replaceAll('-', '\\-'));
    }
    for (const heading of ['NAME', 'SYNOPSIS', 'EXAMPLES', 'EXIT STATUS', 'ENVIRONMENT', 'FILES']) expect(page).toContain(`\n.SH ${heading}\n`); // prettier-ignore
    expect(page).toContain('barwise 1.2.3');
  });

  it.skipIf(spawnSync('man', ['--version']).status !== 0)('is set by man without a warning', () => {
    const run = spawnSync('man', ['--warnings', '-l', '-'], { input: page, encoding: 'utf8', env: { ...process.env, LC_ALL: 'C.UTF-8', MANWIDTH: '80' } }); // prettier-ignore
    expect([run.status, run.stderr]).toEqual([0, '']);
    expect(run.stdout).toContain('--tempo-range');
  });
});
