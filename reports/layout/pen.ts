import type { LadderPen, LadderTheme } from '../../src/ladder/index.js';
import type { Typesetter } from './typesetter.js';

/** A pen for ladders on a page of PDF, its origin at (`x`, `y`). */
export function pdfPen(
  doc: PDFKit.PDFDocument,
  type: Typesetter,
  colours: LadderTheme,
  origin: { readonly x: number; readonly y: number },
): LadderPen {
  return {
    path(d, style) {
      doc.save().translate(origin.x, origin.y);
      doc.path(d);
      if (style.stroke === undefined) {
        doc.fill(colours[style.fill ?? 'ink']);
      } else {
        doc
          .lineWidth(style.width ?? 1)
          .lineCap(style.round === true ? 'round' : 'butt')
          .lineJoin('miter');
        if (style.dash !== undefined) doc.dash(style.dash[0], { space: style.dash[1] });
        doc.stroke(colours[style.stroke]);
      }
      doc.restore();
    },
    text(line) {
      const { size, bold, anchor } = line;
      type.line(line.text, origin.x + line.x, origin.y + line.y, { size, bold, anchor, colour: colours[line.role] });
    },
  };
}
