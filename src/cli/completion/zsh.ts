import { everyCommand, type ArgumentNode, type CommandNode, type OptionNode } from '../tree.js';
import { choicesFor, type Choices } from './choices.js';

/** A completion for zsh, with a description beside every command and option: a function a command. */
export function zshCompletion(tree: CommandNode, choices: Choices): string {
  const program = tree.path[0];
  const functions = everyCommand(tree).map((node) => functionOf(node, choices));
  return `#compdef ${program}
# zsh completion for ${program}; put it into effect with: source <(${program} completion zsh)
${functions.join('\n')}
if [ "$funcstack[1]" = '_${program}' ]; then
  _${program} "$@"
else
  compdef _${program} ${program}
fi
`;
}

function functionOf(node: CommandNode, choices: Choices): string {
  const options = node.options.map((o) => `    ${optionSpec(o, node, choices)}`);
  if (node.commands.length === 0) {
    const words = choicesFor(choices, node.path);
    const places = node.arguments.map((a, i) => {
      const action = i > 0 || words === null ? '_files' : isWordOnly(a) ? `(${words.join(' ')})` : `{_alternative 'words:${a.name}:(${words.join(' ')})' 'files:file:_files'}`; // prettier-ignore
      return `    ${quoted(`${a.variadic ? '*' : i + 1}:${escaped(a.name)}:`).slice(0, -1)}${action.replaceAll("'", `'\\''`)}'`; // prettier-ignore
    });
    return `${nameOf(node)}() {\n  _arguments -s -S \\\n${[...options, ...places].join(' \\\n')}\n}`;
  }
  const subs = node.commands.map(
    (c) => `        ${quoted(`${c.path.at(-1)}:${c.description.replaceAll(':', '\\:')}`)}`,
  );
  const calls = node.commands.map((c) => `        ${c.path.at(-1)}) ${nameOf(c)} ;;`);
  return `${nameOf(node)}() {
  local curcontext="$curcontext" state line
  _arguments -C \\
${[...options, `    '1: :->command'`, `    '*:: :->rest'`].join(' \\\n')}
  case $state in
    command)
      local -a commands=(
${subs.join('\n')}
      )
      _describe command commands ;;
    rest)
      case $line[1] in
${calls.join('\n')}
      esac ;;
  esac
}`;
}

function optionSpec(o: OptionNode, node: CommandNode, choices: Choices): string {
  const words = choicesFor(choices, node.path, o.long);
  const action = words === null ? (isPlace(o) ? '_files' : ' ') : `(${words.map((w) => w.replaceAll(':', '\\:')).join(' ')})`; // prettier-ignore
  const value = o.value === null ? '' : `${o.value.required ? ':' : '::'}${escaped(o.value.name)}:${action}`;
  const said = `[${escaped(o.description)}]${value}`;
  if (o.short === null) return quoted(`${o.long}${said}`);
  return `'(${o.short} ${o.long})'{${o.short},${o.long}}${quoted(said)}`;
}

/** Whether an argument takes nothing but the words there are for it. */
export function isWordOnly({ description }: ArgumentNode): boolean {
  return !/file/.test(description);
}

/** Whether an option wants a file or folder. */
export function isPlace({ value }: OptionNode): boolean {
  return value !== null && /file|folder|page|place|\.\w+$/.test(value.name);
}

function nameOf(node: CommandNode): string {
  return `_${node.path.join('_')}`;
}

/** What stands between colons and brackets. */
function escaped(text: string): string {
  return text.replace(/[[\]:]/g, '\\$&');
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", `'\\''`)}'`;
}
