const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for HTML, in elements and in quoted attributes. Everything that comes from a file goes through here. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (c) => ENTITIES[c]);
}

/** A table cell: text, or a number that is set to the right. */
export interface TableCell {
  readonly text: string;
  readonly number?: boolean;
  readonly strong?: boolean;
  /** May be broken into lines: as text, or as narrow as its longest word. */
  readonly wrap?: boolean | 'narrow';
}

function wrapping(wrap: TableCell['wrap']): string {
  if (wrap === 'narrow') return '';
  return wrap ? ';min-width:12em' : ';white-space:nowrap';
}

/** A table with a caption, as HTML that stands on its own and looks calm in any notebook. */
export function htmlTable(
  caption: string,
  head: readonly TableCell[],
  rows: readonly (readonly TableCell[])[],
): string {
  const cell = (tag: 'th' | 'td', extra: string) => (c: TableCell) => {
    const align = c.number ? 'right' : 'left';
    const inner = c.strong ? `<strong>${escapeHtml(c.text)}</strong>` : escapeHtml(c.text);
    return `<${tag}${extra} style="text-align:${align};padding:2px 10px;vertical-align:top${wrapping(c.wrap)}">${inner}</${tag}>`;
  };
  const heading = head.map(cell('th', ' scope="col"')).join('');
  const body = rows.map((row) => `<tr>${row.map(cell('td', '')).join('')}</tr>`).join('\n');
  return (
    `<table class="barwise" style="border-collapse:collapse">\n` +
    `<caption style="text-align:left;padding:4px 0;caption-side:top">${escapeHtml(caption)}</caption>\n` +
    `<thead><tr>${heading}</tr></thead>\n<tbody>\n${body}\n</tbody>\n</table>`
  );
}

/** The same table as plain text in columns. */
export function textTable(
  caption: string,
  head: readonly TableCell[],
  rows: readonly (readonly TableCell[])[],
): string {
  const all = [head, ...rows];
  const widths = head.map((_, c) => Math.max(...all.map((row) => row[c]?.text.length ?? 0)));
  const line = (row: readonly TableCell[]) =>
    row
      .map((c, i) => (c.number ? c.text.padStart(widths[i]) : c.text.padEnd(widths[i])))
      .join('  ')
      .trimEnd();
  return [caption, ...all.map(line)].join('\n');
}
