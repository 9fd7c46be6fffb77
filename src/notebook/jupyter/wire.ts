import { createHmac, randomUUID, timingSafeEqual } from 'node:crypto';

/** Version of the messages (Jupyter Client documentation, "Messaging in Jupyter", 5.3). */
export const PROTOCOL_VERSION = '5.3';

/** What stands between the addresses of a message and its parts. */
const DELIMITER = '<IDS|MSG>';

export interface Header {
  readonly msg_id: string;
  readonly session: string;
  readonly username: string;
  readonly date: string;
  readonly msg_type: string;
  readonly version: string;
}

/** A message as it is understood. */
export interface Message {
  /** To whom an answer goes. */
  readonly identities: readonly Buffer[];
  readonly header: Header;
  readonly parent: Header | null;
  readonly content: Readonly<Record<string, unknown>>;
}

/**
 * Reads the frames of a message.
 * @param key of the connection; empty when messages are not signed
 * @returns null for frames that are no message, or that somebody without the key has sent
 */
export function readMessage(frames: readonly Buffer[], key: string): Message | null {
  const at = frames.findIndex((frame) => frame.toString() === DELIMITER);
  if (at < 0 || frames.length < at + 6) return null;
  const parts = frames.slice(at + 2);
  if (key !== '' && !isSame(frames[at + 1].toString(), signature(parts.slice(0, 4), key))) return null;
  try {
    const [header, parent, , content] = parts.map((part) => JSON.parse(part.toString()) as unknown);
    return {
      identities: frames.slice(0, at),
      header: header as Header,
      parent: parent as Header,
      content: content as Message['content'],
    };
  } catch {
    return null;
  }
}

/** The frames of a message that answers another, or of one that stands for itself. */
export function writeMessage(
  type: string,
  content: object,
  { key, session, parent, identities }: WriteOptions,
): (Buffer | string)[] {
  const header: Header = {
    msg_id: randomUUID(),
    session,
    username: 'barwise',
    date: new Date().toISOString(),
    msg_type: type,
    version: PROTOCOL_VERSION,
  };
  const parts = [header, parent ?? {}, {}, content].map((part) => JSON.stringify(part));
  return [...(identities ?? []), DELIMITER, key === '' ? '' : signature(parts, key), ...parts];
}

export interface WriteOptions {
  readonly key: string;
  readonly session: string;
  readonly parent?: Header | null;
  readonly identities?: readonly (Buffer | string)[];
}

/** HMAC-SHA256 over header, parent header, metadata and content. */
function signature(parts: readonly (Buffer | string)[], key: string): string {
  const hmac = createHmac('sha256', key);
  for (const part of parts) hmac.update(part);
  return hmac.digest('hex');
}

function isSame(a: string, b: string): boolean {
  return a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));
}
