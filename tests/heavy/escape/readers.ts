import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseMidi } from 'midi-file';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser } from 'playwright-core';
import { STEERING } from './hostile.js';

/** Cells of a CSV text (RFC 4180). */
export function cellsOf(text: string): string[] {
  const cells: string[] = [];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/gy;
  while (cell.lastIndex < text.length) {
    const found = cell.exec(text);
    if (!found) throw new Error(`No CSV from place ${cell.lastIndex}: ${JSON.stringify(text.slice(0, 80))}`);
    cells.push(found[1] === undefined ? found[2] : found[1].replaceAll('""', '"'));
  }
  return cells;
}

/** Cells that a spreadsheet would run. */
export function formulas(text: string): string[] {
  return cellsOf(text).filter((cell) => /^[=+\-@\t\r]/.test(cell) && !/^-?\d+(\.\d+)?$/.test(cell));
}

/** Lines of a terminal's output in which something steers it, or that a tag has made its own. */
export function badLines(text: string): string[] {
  return text.split(/\r?\n/).filter((line) => STEERING.test(line) || /^\W*barwise: all tracks/.test(line));
}

/** All texts of a MIDI file. */
export function textsOfMidi(bytes: Uint8Array): string[] {
  const events = parseMidi(bytes).tracks.flat();
  return events.flatMap((e) => ('text' in e ? [Buffer.from(e.text, 'latin1').toString('utf8')] : []));
}

/** What a page in a browser did that it should not: scripts from tags, other places, handlers and addresses in its elements. */
export async function pageTrouble(browser: Browser, file: string): Promise<string[]> {
  const page = await browser.newPage();
  const trouble: string[] = [];
  page.on('request', (r) => /^(file|data|blob|about):/.test(r.url()) || trouble.push(`asked for ${r.url()}`));
  page.on('dialog', (d) => (trouble.push(`said ${d.message()}`), void d.dismiss()));
  page.on('pageerror', (error) => trouble.push(error.message));
  await page.goto(pathToFileURL(file).href);
  await page.waitForTimeout(300);
  trouble.push(
    ...(await page.evaluate(() => {
      const found: string[] = 'broken' in window ? ['a script of a tag has run'] : [];
      for (const element of document.querySelectorAll('*'))
        for (const { name, value } of element.attributes) {
          if (/^on/i.test(name)) found.push(`handler ${name} at ${element.tagName}`);
          if (/^(href|src|action|formaction|xlink:href)$/i.test(name) && !/^(#|data:|blob:|(?!\/\/)[^:]*$)/.test(value))
            found.push(`${name}=${value.slice(0, 60)} at ${element.tagName}`);
        }
      return found;
    })),
  );
  await page.close();
  return trouble;
}

/** What is wrong with an SVG picture: no XML, or something in it that acts. */
export async function svgTrouble(browser: Browser, file: string): Promise<string[]> {
  const page = await browser.newPage();
  try {
    return await page.evaluate(
      (text) => {
        const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
        const found = parsed.querySelector('parsererror') ? ['no XML'] : [];
        for (const element of parsed.querySelectorAll('*')) {
          if (/^(script|foreignObject|a|image|iframe)$/i.test(element.localName)) found.push(element.localName);
          for (const { name } of element.attributes) if (/^(on|href|xlink:href)/i.test(name)) found.push(name);
        }
        return found;
      },
      readFileSync(file, 'utf8'),
    );
  } finally {
    await page.close();
  }
}

/** Whatever in a PDF could act, and texts that steer what reads them. */
export async function pdfTrouble(file: string): Promise<string[]> {
  const document = await getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 }).promise;
  const found: string[] = [];
  if (await document.getJSActions()) found.push('JavaScript');
  if (await document.getAttachments()) found.push('a file in the file');
  const { info } = await document.getMetadata();
  const outline = ((await document.getOutline()) ?? []) as { title: string; url: string | null }[];
  for (const { title, url } of outline) {
    if (url) found.push(`bookmark to ${url}`);
    if (STEERING.test(title)) found.push(`bookmark ${JSON.stringify(title)}`);
  }
  for (const [key, value] of Object.entries(info as Record<string, unknown>))
    if (typeof value === 'string' && STEERING.test(value)) found.push(`${key} ${JSON.stringify(value)}`);
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n);
    for (const note of (await page.getAnnotations()) as { url?: string; actions?: unknown }[])
      if (note.url !== undefined || note.actions !== undefined) found.push(`page ${n}: an action`);
    const { items } = await page.getTextContent();
    for (const item of items) if ('str' in item && STEERING.test(item.str)) found.push(`page ${n}: ${item.str}`);
  }
  await document.destroy();
  return found;
}

/** All files under a folder, by their paths from it. */
export function filesUnder(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}
