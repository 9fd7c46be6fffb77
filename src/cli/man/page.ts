import { EXIT_HELP } from '../exit-codes.js';
import { everyCommand, type ArgumentNode, type CommandNode, type OptionNode } from '../tree.js';

const ENVIRONMENT: readonly (readonly [string, string])[] = [
  ['BARWISE_CORRECTIONS', 'the folder in which corrections are kept'],
  ['BARWISE_DEBUG', 'where it is set, a fault of the program prints where it arose'],
  ['NO_COLOR', 'where it is set, nothing on the terminal is coloured or bold'],
];
const FILES: readonly (readonly [string, string])[] = [
  ['.barwise/', 'finished analyses, beside the music; deleting it loses only time'],
  ['~/.local/share/barwise/corrections/', 'what people have said about tracks, a YAML file each'],
];

/** The manual page of the program with all its commands, in the macros of man(7). */
export function manPage(tree: CommandNode, version: string): string {
  const name = tree.path[0];
  const shared = [...new Set(everyCommand(tree).flatMap((c) => c.options.flatMap((o) => o.group ?? [])))];
  const lines = [
    `.TH ${name.toUpperCase()} 1 "" "${name} ${version}" "User Commands"`,
    '.SH NAME',
    `${name} \\- ${text(firstLower(tree.description))}`,
    '.SH SYNOPSIS',
    `.B ${name}`,
    '.I command',
    '[\\fIoption\\fR ...]\\& [\\fIfile\\fR ...]',
    '.SH DESCRIPTION',
    text(tree.description),
    'Data goes to standard output, what is said to a person to standard error.',
    '.SH EXAMPLES',
    ...examples(tree.examples),
    '.SH COMMANDS',
    ...everyCommand(tree)
      .filter((c) => c !== tree && c.commands.length === 0)
      .flatMap(command),
    ...shared.flatMap((group) => [`.SH ${group.toUpperCase()}`, ...sharedOptions(tree, group)]),
    '.SH EXIT STATUS',
    ...EXIT_HELP.split('\n').slice(1).flatMap((line) => pair(/^\s*(\d+)\s+(.*)$/.exec(line)!.slice(1) as [string, string])), // prettier-ignore
    '.SH ENVIRONMENT',
    ...ENVIRONMENT.flatMap((p) => pair(p)),
    '.SH FILES',
    ...FILES.flatMap((p) => pair(p)),
  ];
  return `${lines.join('\n')}\n`;
}

function command(node: CommandNode): string[] {
  const own = node.options.filter((o) => o.group === null && o.long !== '--help');
  const groups = [...new Set(node.options.flatMap((o) => o.group ?? []))];
  return [
    `.SS ${node.path.slice(1).join(' ')}`,
    `.B ${node.path.join(' ')}`,
    ...(own.length + groups.length > 0 ? ['[\\fIoption\\fR ...]\\&'] : []),
    ...node.arguments.map((a) => `\\fI${text(argument(a))}\\fR`),
    '.PP',
    text(sentence(node.description)),
    ...node.remarks.map((r) => text(r)),
    ...node.arguments.flatMap((a) => pair([a.name, a.description], 'I')),
    ...own.flatMap(option),
    ...(groups.length > 0
      ? ['.PP', `See also ${groups.map((g) => `\\fB${g.toUpperCase()}\\fR`).join(', ')} below.`]
      : []),
    ...(node.examples.length > 0 ? ['.PP', ...examples(node.examples)] : []),
  ];
}

/** Options that several commands have under one heading, each once. */
function sharedOptions(tree: CommandNode, group: string): string[] {
  const found = new Map<string, OptionNode>();
  for (const { options } of everyCommand(tree))
    for (const o of options) if (o.group === group && !found.has(o.long)) found.set(o.long, o);
  return [...found.values()].flatMap(option);
}

function option(o: OptionNode): string[] {
  const flags = [o.short, o.long].filter((f) => f !== null).map((f) => `\\fB${text(f)}\\fR`);
  const value = o.value === null ? '' : o.value.required ? ` \\fI${text(o.value.name)}\\fR` : ` [\\fI${text(o.value.name)}\\fR]`; // prettier-ignore
  return ['.TP', `${flags.join(', ')}${value}`, text(`${o.description}${o.mandatory ? '; must be given' : ''}`)];
}

function pair([name, about]: readonly [string, string], font = 'B'): string[] {
  return ['.TP', `\\f${font}${text(name)}\\fR`, text(about)];
}

function examples(lines: readonly string[]): string[] {
  return ['.nf', ...lines.map(text), '.fi'];
}

function argument({ name, required, variadic }: ArgumentNode): string {
  const many = variadic ? ` ...` : '';
  return required ? `${name}${many}` : `[${name}${many}]`;
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1).replace(/\.$/, '')}.`;
}

function firstLower(words: string): string {
  return `${words.charAt(0).toLowerCase()}${words.slice(1).replace(/\.$/, '')}`;
}

/** Text that the formatter leaves as it is: dashes stay dashes, and no line is taken for a request. */
function text(words: string): string {
  return words
    .replace(/\\/g, '\\e')
    .replace(/-/g, '\\-')
    .replace(/^([.'])/, '\\&$1');
}
