import { everyCommand, type CommandNode, type OptionNode } from '../tree.js';
import { choicesFor, type Choices } from './choices.js';
import { isPlace, isWordOnly } from './zsh.js';

/** A completion for fish, with a description beside every command and option. */
export function fishCompletion(tree: CommandNode, choices: Choices): string {
  const program = tree.path[0];
  const lines = everyCommand(tree).flatMap((node) => linesOf(node, choices));
  return `# fish completion for ${program}; put it into effect with: ${program} completion fish | source
${lines.map((line) => `complete -c ${program} ${line}`).join('\n')}
`;
}

function linesOf(node: CommandNode, choices: Choices): string[] {
  const here = conditionOf(node);
  const subs = node.commands.map((c) => `${here} -f -a ${c.path.at(-1)} -d ${quoted(c.description)}`);
  const words = choicesFor(choices, node.path);
  const only = node.arguments.length === 1 && isWordOnly(node.arguments[0]) ? ' -f' : '';
  const first = words === null ? [] : [`${here}${only} -a ${quoted(words.join(' '))}`];
  return [...subs, ...first, ...node.options.map((o) => `${here} ${optionOf(o, node, choices)}`)];
}

function optionOf(o: OptionNode, node: CommandNode, choices: Choices): string {
  const words = choicesFor(choices, node.path, o.long);
  const value =
    o.value === null ? '' : words !== null ? ` -x -a ${quoted(words.join(' '))}` : o.value.required ? (isPlace(o) ? ' -r -F' : ' -x') : ''; // prettier-ignore
  const short = o.short === null ? '' : `-s ${o.short.slice(1)} `;
  return `${short}-l ${o.long.slice(2)}${value} -d ${quoted(o.description)}`;
}

/** Holds where the command has been named, and none under it. */
function conditionOf(node: CommandNode): string {
  const names = node.path.slice(1);
  const under = node.commands.map((c) => c.path.at(-1)).join(' ');
  const seen = names.map((name) => `__fish_seen_subcommand_from ${name}`);
  const open = under === '' ? [] : [`not __fish_seen_subcommand_from ${under}`];
  return `-n ${quoted([...seen, ...open].join('; and '))}`;
}

function quoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
