import { inflateSync } from 'node:zlib';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import { VARIANTS } from '../ladder/variants.js';
import { bytesOf, PIECES } from './pieces.js';
import { nodes, readPdf, type PdfContent, type PdfNode } from './read-pdf.js';

/*
 * What a program can check of ISO 14289-1 (PDF/UA-1), by the points of the Matterhorn Protocol 1.1 (PDF Association, 2021;
 * numbers from memory). What it calls human checks, such as whether a description is a good one, is not here.
 */

const PAINTING = new Set([
  OPS.showText,
  OPS.showSpacedText,
  OPS.stroke,
  OPS.fill,
  OPS.eoFill,
  OPS.fillStroke,
  OPS.constructPath,
]);

/** Painting outside of every marked content, and marks that are opened and never closed. */
async function unmarked(bytes: Buffer): Promise<number> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  let found = 0;
  for (let n = 1; n <= document.numPages; n++) {
    const { fnArray } = await (await document.getPage(n)).getOperatorList();
    let depth = 0;
    for (const operator of fnArray) {
      if (operator === OPS.beginMarkedContent || operator === OPS.beginMarkedContentProps) depth++;
      else if (operator === OPS.endMarkedContent) depth--;
      else if (depth === 0 && PAINTING.has(operator)) found++;
    }
    found += Math.abs(depth);
  }
  await document.destroy();
  return found;
}

/** Every stream of a PDF, unpacked where it is packed. */
function streams(bytes: Buffer): readonly string[] {
  const text = bytes.toString('latin1');
  return [...text.matchAll(/stream\r?\n/g)]
    .filter(({ index }) => text.slice(index - 3, index) !== 'end')
    .map(({ index, 0: head }) => {
      const from = index + head.length;
      const data = bytes.subarray(from, text.indexOf('endstream', from));
      try {
        return inflateSync(data, { finishFlush: 2 }).toString('latin1');
      } catch {
        return data.toString('latin1');
      }
    });
}

const children = (node: PdfNode, role: string) => node.children.filter((c) => c.role === role);

describe.each(Object.keys(PIECES))('a %s', (piece) => {
  let bytes: Buffer;
  let raw: string;
  let pdf: PdfContent;
  let tree: readonly PdfNode[];
  beforeAll(async () => {
    bytes = await bytesOf(piece, VARIANTS.plain());
    raw = bytes.toString('latin1');
    pdf = await readPdf(bytes);
    tree = pdf.pages.flatMap((p) => nodes(p.tree));
  });

  test('has everything on it tagged or marked as an artifact (01-005)', async () => {
    expect(pdf.tagged).toBe(true);
    expect(await unmarked(bytes)).toBe(0);
  });
  test('says in its metadata what it is and its title, and shows that (06-001 to 06-003, 07-001, 07-002)', () => {
    const metadata = streams(bytes).find((s) => s.includes('<x:xmpmeta'));
    expect(metadata).toMatch(/pdfuaid:part(>|=")1/);
    expect(metadata).toMatch(/<dc:title>[\s\S]*\S[\s\S]*<\/dc:title>/);
    expect(raw).toMatch(/\/DisplayDocTitle true/);
  });
  test('tells its language (11-006)', () => {
    expect(pdf.language).toMatch(/^(en|de)$/);
  });
  test('uses standard structure types alone (02-001)', () => {
    // ISO 32000-1, 14.8.4.
    const standard = ['Root', 'Document', 'Sect', 'H1', 'H2', 'H3', 'P', 'Figure', 'Table', 'TR', 'TH', 'TD', ''];
    expect([...new Set(tree.map((n) => n.role))].filter((role) => !standard.includes(role))).toEqual([]);
  });
  test('describes every figure (13-004)', () => {
    for (const figure of tree.filter((n) => n.role === 'Figure')) expect(figure.alt?.trim() ?? '').not.toBe('');
  });
  test('skips no level of its headings (14-002, 14-003)', () => {
    const levels = tree.flatMap((n) => /^H(\d)$/.exec(n.role)?.[1] ?? []).map(Number);
    levels.forEach((level, i) => expect(level).toBeLessThanOrEqual((levels[i - 1] ?? 0) + 1));
  });
  test('has tables of rows of cells, their heads with a scope (09-004, 09-006, 15-003)', () => {
    for (const table of tree.filter((n) => n.role === 'Table')) {
      expect(children(table, 'TR')).toHaveLength(table.children.length);
      for (const row of table.children) for (const cell of row.children) expect(cell.role).toMatch(/^T[HD]$/);
    }
    const heads = [...raw.matchAll(/\/S \/TH\b/g)].length;
    expect([...raw.matchAll(/\/Scope \/(Column|Row)/g)].length).toBeGreaterThanOrEqual(heads);
  });
  test('embeds its fonts, each with a way back to characters, and shows no missing glyph (31-009, 31-027, 31-030)', () => {
    const fonts = [...raw.matchAll(/\/Type \/Font\b(?!Descriptor)[\s\S]*?endobj/g)]
      .map((m) => m[0])
      .filter((f) => f.includes('/Type0'));
    expect(fonts.length).toBeGreaterThan(0);
    for (const font of fonts) expect(font).toContain('/ToUnicode');
    const descriptors = [...raw.matchAll(/\/Type \/FontDescriptor[\s\S]*?endobj/g)].map((m) => m[0]);
    for (const descriptor of descriptors) expect(descriptor).toMatch(/\/FontFile[23]? /);
    const shown = streams(bytes).flatMap((s) =>
      /\bBT\b/.test(s) ? [...s.matchAll(/<([0-9a-f]+)>/g)].map((m) => m[1]) : [],
    );
    expect(shown.length).toBeGreaterThan(0);
    for (const hex of shown) for (let i = 0; i < hex.length; i += 4) expect(hex.slice(i, i + 4)).not.toBe('0000');
  });
  test('has no scripts, files or notes in it, and is not locked (26-001, 28-002, 30-001)', () => {
    expect(raw).not.toMatch(/\/(JavaScript|EmbeddedFile|Encrypt|Annots|XFA)\b/);
  });
});
