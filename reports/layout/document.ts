import { finished } from 'node:stream/promises';
import { loadFaces, loadOptional } from './fonts.js';
import { gatherBytes, gatherOperators } from './gather.js';
import { PRODUCER } from './signature.js';
import { pdfSurface, type Surface } from './surface.js';
import { createTypesetter, type Typesetter } from './typesetter.js';

/** The date in every PDF: with the clock's own the same cards would never be the same bytes. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1));

export interface PieceInfo {
  /** What it is about, for the document's properties. */
  readonly subject?: string;
  readonly title: string;
  /** Language of the words, BCP 47, e.g. `en`. */
  readonly language: string;
}

/** A PDF under way: vector, tagged, fonts embedded and subset. */
export interface PieceDocument {
  readonly doc: PDFKit.PDFDocument;
  readonly type: Typesetter;
  readonly surface: Surface;
  /** Root of the structure tree. */
  readonly root: PDFKit.PDFStructureElement;
  /** Sets the title where it was not known when the document was opened. */
  readonly setTitle: (title: string) => void;
  /** Adds a page of a trimmed size in points, larger by the bleed on all sides (ISO 32000-1, 14.11.2). */
  readonly addPage: (size: { readonly width: number; readonly height: number }, bleed?: number) => void;
  /** Ends the document and gives its bytes. */
  readonly finish: () => Promise<Buffer>;
}

/** Opens a document without pages. Throws BarwiseError `missing-package` where pdfkit or fontkit is not installed. */
export async function openDocument(info: PieceInfo): Promise<PieceDocument> {
  const { default: PDFDocument } = await loadOptional('pdfkit', () => import('pdfkit'));
  const faces = await loadFaces();
  const title = plainTitle(info.title);
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    subset: 'PDF/UA' as 'PDF/A-1', // the typings do not know it yet
    tagged: true,
    displayTitle: true,
    lang: info.language,
    info: {
      Title: title,
      ...(info.subject === undefined ? {} : { Subject: plainTitle(info.subject) }),
      Producer: PRODUCER,
      Creator: 'Barwise',
      CreationDate: FIXED_DATE,
      ModDate: FIXED_DATE,
    },
    // No font to begin with: pdfkit's own default would not be embedded.
    font: null as unknown as string,
  });
  const { add, bytes } = gatherBytes();
  doc.on('data', add);
  const handOver = gatherOperators(doc);
  const done = finished(doc);
  done.catch(() => undefined);
  const type = createTypesetter(doc, faces);
  const root = doc.struct('Document');
  doc.addStructure(root);
  const addPage: PieceDocument['addPage'] = ({ width, height }, bleed = 0) => {
    const [outerWidth, outerHeight] = [width + 2 * bleed, height + 2 * bleed];
    handOver();
    doc.addPage({ size: [outerWidth, outerHeight], margin: 0 });
    const boxes = doc.page.dictionary.data as Record<string, unknown>;
    boxes.TrimBox = [bleed, bleed, bleed + width, bleed + height];
    if (bleed > 0) boxes.BleedBox = [0, 0, outerWidth, outerHeight];
  };
  const setTitle = (text: string): void => {
    doc.info.Title = plainTitle(text);
  };
  const finish = async (): Promise<Buffer> => {
    root.end();
    handOver();
    doc.end();
    await done;
    return bytes();
  };
  return { doc, type, surface: pdfSurface(doc, type), root, setTitle, addPage, finish };
}

/** The document's title goes into XML that pdfkit does not escape: markup characters get near look-alikes. */
function plainTitle(title: string): string {
  return title.replace(/&/g, 'and').replace(/</g, '‹').replace(/>/g, '›');
}
