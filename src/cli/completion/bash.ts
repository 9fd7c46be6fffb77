import { everyCommand, type CommandNode } from '../tree.js';
import { choicesFor, type Choices } from './choices.js';

/**
 * A completion for bash 3.2 and newer. It follows the commands by their names, offers options after a dash, words where
 * they are fixed, and leaves everything else to the shell, which offers files.
 */
export function bashCompletion(tree: CommandNode, choices: Choices): string {
  const all = everyCommand(tree);
  const program = tree.path[0];
  const steps = all.flatMap((node) => node.commands.map((sub) => `      '${nameOf(node)} ${sub.path.at(-1)}') at='${nameOf(sub)}' ;;`)); // prettier-ignore
  const values = all.flatMap((node) =>
    node.options.flatMap((o) => {
      if (o.value === null) return [];
      const pattern = [o.long, ...(o.short === null ? [] : [o.short])].map((f) => `'${nameOf(node)} ${f}'`).join('|');
      const words = choicesFor(choices, node.path, o.long);
      // What may be left out is not waited for.
      if (words === null) return o.value.required ? [`    ${pattern}) return ;;`] : [];
      return [`    ${pattern}) words='${words.join(' ')}' ;;`];
    }),
  );
  const offers = all.map((node) => {
    const options = node.options.flatMap((o) => [o.long, ...(o.short === null ? [] : [o.short])]).join(' ');
    const words = [...node.commands.map((c) => c.path.at(-1)), ...(choicesFor(choices, node.path) ?? [])].join(' ');
    return `    '${nameOf(node)}') options='${options}'; words='${words}' ;;`;
  });
  return `# bash completion for ${program}; put it into effect with: source <(${program} completion bash)
_${program}() {
  local cur="\${COMP_WORDS[COMP_CWORD]}" prev="\${COMP_WORDS[COMP_CWORD-1]}" at='${nameOf(tree)}' options='' words='' i
  COMPREPLY=()
  if [ "$cur" = '=' ]; then cur=''; elif [ "$prev" = '=' ]; then prev="\${COMP_WORDS[COMP_CWORD-2]}"; fi
  for ((i = 1; i < COMP_CWORD; i++)); do
    case "$at \${COMP_WORDS[i]}" in
${steps.join('\n')}
    esac
  done
  case "$at $prev" in
${values.join('\n')}
  esac
  if [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$cur"))
    return
  fi
  case "$at" in
${offers.join('\n')}
  esac
  case "$cur" in
    -*) COMPREPLY=($(compgen -W "$options" -- "$cur")) ;;
    *) COMPREPLY=($(compgen -W "$words" -- "$cur")) ;;
  esac
}
complete -o bashdefault -o default -F _${program} ${program}
`;
}

function nameOf(node: CommandNode): string {
  return node.path.join(' ');
}
