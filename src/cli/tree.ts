import type { Command, Option } from 'commander';

/** A command with all that can be said to it, as plain data: what completions and the manual page are made from. */
export interface CommandNode {
  /** Its names from the program's down: `['barwise', 'practice', 'count']`. */
  readonly path: readonly string[];
  readonly description: string;
  readonly arguments: readonly ArgumentNode[];
  readonly options: readonly OptionNode[];
  /** What stands above the usage in its help: how things are written, examples. */
  readonly examples: readonly string[];
  /** Sentences beside the examples. */
  readonly remarks: readonly string[];
  readonly commands: readonly CommandNode[];
}

export interface ArgumentNode {
  readonly name: string;
  readonly description: string;
  readonly required: boolean;
  readonly variadic: boolean;
}

export interface OptionNode {
  /** With dashes; null where there is none. */
  readonly short: string | null;
  readonly long: string;
  /** Name of its value; null for one that takes none. */
  readonly value: { readonly name: string; readonly required: boolean } | null;
  readonly description: string;
  /** Whether it must be given. */
  readonly mandatory: boolean;
  /** Under which heading it stands; null for the command's own. */
  readonly group: string | null;
}

/** The program and its commands, without those that are hidden. */
export function commandTree(command: Command, above: readonly string[] = []): CommandNode {
  const path = [...above, command.name()];
  const help = command.createHelp();
  const visible = help.visibleCommands(command).filter((c) => c.name() !== 'help');
  return {
    path,
    description: command.description(),
    arguments: command.registeredArguments.map((a) => ({
      name: a.name(),
      description: a.description,
      required: a.required,
      variadic: a.variadic,
    })),
    options: help.visibleOptions(command).map((o) => optionNode(o, help.optionDescription(o))),
    ...wordsAbove(command),
    commands: visible.map((c) => commandTree(c, path)),
  };
}

function optionNode(option: Option, description: string): OptionNode {
  const name = /[<[]([^>\]]+(?:<[^>\]]*)?)[>\]]/.exec(option.flags.replace(/^[^<[]*/, ''))?.[1];
  return {
    short: option.short ?? null,
    long: option.long ?? option.flags,
    value: name === undefined ? null : { name, required: option.required },
    description,
    mandatory: option.mandatory,
    group: option.helpGroupHeading?.replace(/:$/, '') ?? null,
  };
}

/** The examples and remarks of a command's help. They are events of commander, so that only printing them tells. */
function wordsAbove(command: Command): Pick<CommandNode, 'examples' | 'remarks'> {
  let text = '';
  const output = command.configureOutput();
  command.configureOutput({ ...output, writeOut: (part) => (text += part) });
  command.outputHelp();
  command.configureOutput(output);
  const lines = text.split(/^Usage: /m)[0].split('\n');
  return {
    examples: lines.filter((l) => /^ {2}\S/.test(l)).map((l) => l.trim()),
    remarks: lines.filter((l) => /^\S/.test(l) && !/^Examples?:$/.test(l)),
  };
}

/** A node and all under it. */
export function everyCommand(node: CommandNode): CommandNode[] {
  return [node, ...node.commands.flatMap(everyCommand)];
}
