import { checkCaches } from '../doctor/caches.js';
import { checkDecoders } from '../doctor/decoders.js';
import type { Finding } from '../doctor/finding.js';
import { checkJupyter } from '../doctor/jupyter.js';
import { checkMachine } from '../doctor/machine.js';
import { checkPackages } from '../doctor/packages.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { printable, type Io } from '../io.js';

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
  io.stdout.write(options.json ? `${JSON.stringify(findings, null, 1)}\n` : asText(findings));
  return findings.some(({ state }) => state === 'ill') ? EXIT.nothing : EXIT.done;
}

const WORDS: Record<Finding['state'], string> = { well: 'ok', note: 'note', ill: 'TROUBLE' };

function asText(findings: readonly Finding[]): string {
  const width = Math.max(...findings.map(({ about }) => Math.min(printable(about).length, 24)));
  return findings
    .map(({ about, state, found, remedy }) => {
      const line = `${WORDS[state].padEnd(8)} ${printable(about).padEnd(width)}  ${printable(found)}`;
      return remedy === undefined ? `${line}\n` : `${line}\n${' '.repeat(9 + width + 2)}→ ${printable(remedy)}\n`;
    })
    .join('');
}
