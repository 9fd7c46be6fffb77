import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fixedChoices, SHELLS } from '../../src/cli/completion/choices.js';
import { createProgram } from '../../src/cli/program.js';
import { commandTree, everyCommand } from '../../src/cli/tree.js';
import { barwise } from './support.js';

const silent = { write: () => undefined };
const tree = commandTree(createProgram({ stdout: silent, stderr: silent, env: {}, signal: new AbortController().signal }, () => undefined)); // prettier-ignore
const has = (shell: string) => spawnSync(shell, ['--version']).status === 0;

let root: string;
const script = (shell: string) => join(root, shell);
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'barwise-completion-'));
  for (const shell of SHELLS) writeFileSync(script(shell), (await barwise(['completion', shell])).out);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('the words that are offered', () => {
  it('belong to options and commands that there are', () => {
    const places = everyCommand(tree).flatMap((c) => {
      const name = c.path.slice(1).join(' ');
      return [name, ...c.options.flatMap((o) => [o.long, `${name} ${o.long}`])];
    });
    for (const key of Object.keys(fixedChoices())) expect(places).toContain(key);
  });

  it('are all named where the option is explained', () => {
    for (const [key, words] of Object.entries(fixedChoices())) {
      const node = everyCommand(tree).find((c) => key.startsWith('--') || key === c.path.slice(1).join(' ') || key.startsWith(`${c.path.slice(1).join(' ')} --`) && c !== tree)!; // prettier-ignore
      const option = everyCommand(tree).flatMap((c) => (key.startsWith('--') || c === node ? c.options : [])).find((o) => key.endsWith(o.long)); // prettier-ignore
      const said = option?.description ?? node.arguments[0].description;
      if (key === 'notebook') continue;
      for (const word of words) expect([key, said]).toEqual([key, expect.stringContaining(word)]);
    }
  });
});

describe.skipIf(!has('bash'))('barwise completion bash', () => {
  /** What bash offers for the last of some words, in a real bash. */
  const offered = (...words: string[]) => {
    const run = spawnSync('bash', ['-c', `source "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($#-1)); _barwise; printf '%s\\n' "\${COMPREPLY[@]}"`, script('bash'), 'barwise', ...words], { encoding: 'utf8' }); // prettier-ignore
    expect(run.stderr).toBe('');
    return run.stdout.split('\n').filter(Boolean);
  };

  it('offers commands, and those under them', () => {
    expect(offered('')).toEqual(tree.commands.map((c) => c.path.at(-1)));
    expect(offered('an')).toEqual(['analyse']);
    expect(offered('practice', '')).toEqual(['count', 'rehearse', 'drill']);
    expect(offered('kernel', 'r')).toEqual(['remove']);
  });

  it('offers every option of every command that is not hidden', () => {
    for (const node of everyCommand(tree)) {
      const wanted = node.options.flatMap((o) => [o.long, ...(o.short === null ? [] : [o.short])]);
      expect(offered(...node.path.slice(1), '-').sort()).toEqual(wanted.sort());
    }
  });

  it('offers words where they are fixed, after a space or an equals sign', () => {
    expect(offered('cards', 'x.wav', '--paper', '')).toEqual(['A6', '3x5in', '4x6in', 'A5', '12in']);
    expect(offered('cards', '--layout', '=', 'L')).toEqual(['Letter']);
    expect(offered('export', '-f', 'j')).toEqual(['jams', 'jsonl']);
    expect(offered('practice', 'drill', 'a')).toEqual(['ahead']);
    expect(offered('completion', '')).toEqual([...SHELLS]);
    expect(offered('notebook', 'ins')).toEqual(['inspect-track']);
  });

  it('leaves files to the shell, and takes none for a command', () => {
    expect(offered('cards', 'x.wav', '--out', '')).toEqual([]);
    expect(offered('analyse', 'cards', '')).toEqual([]);
    expect(offered('analyse', 'cards', '--pa')).toEqual([]);
  });
});

describe.skipIf(!has('fish'))('barwise completion fish', () => {
  const offered = (line: string) => {
    const run = spawnSync('fish', ['--no-config', '-c', 'source $argv[1]; complete -C $argv[2]', script('fish'), line], { encoding: 'utf8' }); // prettier-ignore
    expect(run.stderr).toBe('');
    return run.stdout.split('\n').filter(Boolean).map((l) => l.split('\t')[0]).sort(); // prettier-ignore
  };

  it('offers commands, options and words', () => {
    expect(offered('barwise pra')).toEqual(['practice']);
    expect(offered('barwise practice ')).toEqual(['count', 'drill', 'rehearse']);
    expect(offered('barwise cards --pape')).toEqual(['--paper']);
    expect(offered('barwise cards --paper ')).toEqual(['12in', '3x5in', '4x6in', 'A5', 'A6']);
    expect(offered('barwise completion ')).toEqual([...SHELLS].sort());
  });
});

describe.skipIf(!has('zsh'))('barwise completion zsh', () => {
  it('is taken up by the completion system of zsh', () => {
    const run = spawnSync('zsh', ['-fc', 'autoload -U compinit; compinit -D; source "$1"; print $_comps[barwise]; for f in ${(k)functions[(I)_barwise*]}; do print $f; done', 'zsh', script('zsh')], { encoding: 'utf8' }); // prettier-ignore
    expect(run.stderr).toBe('');
    const [name, ...functions] = run.stdout.trim().split('\n');
    expect(name).toBe('_barwise');
    expect(functions.sort()).toEqual(everyCommand(tree).map((c) => `_${c.path.join('_')}`).sort()); // prettier-ignore
  });
});

it('names the shells there are when it is asked for another', async () => {
  expect(await barwise(['completion', 'tcsh'])).toEqual({ code: 2, out: '', err: 'There is no completion for "tcsh": give bash, zsh, fish.\n' }); // prettier-ignore
});
