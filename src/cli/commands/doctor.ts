import { checkCaches } from '../doctor/caches.js';
import { checkDecoders } from '../doctor/decoders.js';
import type { Finding } from '../doctor/finding.js';
import { checkJupyter } from '../doctor/jupyter.js';
import { checkMachine } from '../doctor/machine.js';
import { checkPackages } from '../doctor/packages.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import stringWidth from 'string-width';
import { printable, type Io } from '../io.js';
import { wrapped } from '../paragraphs.js';

export interface DoctorArguments {
  readonly tidy?: boolean;
  readonly json?: boolean;
  readonly cacheFolder?: string;
}

/** `barwise doctor [FOLDER…]`: whether everything is there that the program needs, and what to do where it is not. */
export async function doctorCommand(paths: readonly string[], options: DoctorArguments, io: Io): Promise<ExitCode> {
  const findings = [
    ...checkMachine(),
    ...(await checkDecoders()),
    ...checkPackages(),
    ...(await checkJupyter()),
    ...(paths.length > 0 || options.cacheFolder ? await checkCaches(paths, options) : []),
  ];
  io.stdout.write(options.json ? `${JSON.stringify(findings, null, 1)}\n` : asText(findings, io));
  return findings.some(({ state }) => state === 'ill') ? EXIT.nothing : EXIT.done;
}

const MARK = 9;
const WORDS: Record<Finding['state'], string> = { well: 'ok', note: 'note', ill: 'TROUBLE' };

/** What something is called stands beside what was found; a longer name, such as a path, above it. */
const WIDEST_NAME = 24;

/** A line each, and what to do under it; on a terminal, no word is broken at the end of a line. */
function asText(findings: readonly Finding[], { stdout }: Io): string {
  const width = Math.max(...findings.map(({ about }) => Math.min(stringWidth(printable(about)), WIDEST_NAME)));
  const indent = MARK + width + 2;
  const columns = stdout.isTTY === true ? (stdout.columns ?? Infinity) : Infinity;
  const paragraph = (text: string, mark: string) => wrapped(printable(text), columns, indent, mark);
  return findings
    .map(({ about, state, found, remedy }) => {
      const name = WORDS[state].padEnd(MARK) + printable(about);
      const isLong = stringWidth(name) > MARK + width && columns < Infinity;
      const line = isLong ? `${name}\n${paragraph(found, '')}` : paragraph(found, `${name}  `);
      const todo =
        remedy === undefined ? '' : wrapped(printable(remedy), columns, indent + 2, `${' '.repeat(indent)}→ `);
      return line + todo;
    })
    .join('');
}
