import { z } from 'zod';
import { contrastRatio, HATCH_NAMES } from '../../src/ladder/index.js';
import { LANGUAGES } from '../../src/wording/index.js';
import { PRINT_LANGUAGES } from '../words/index.js';

/** Least contrast of type on its paper: WCAG 2.2, success criterion 1.4.3. */
const LEAST_CONTRAST = 4.5;
/** Longest word or phrase that a theme may put in place of ours. */
const LONGEST = 80;

const colour = z.string().regex(/^#[0-9a-f]{6}$/i, 'a colour is written #rrggbb');
const hatchName = z.enum(HATCH_NAMES);

/** Colours of a piece in full; each that carries type stands out from the paper. */
const coloursSchema = z.strictObject({
  paper: colour.optional(),
  ink: colour.optional(),
  muted: colour.optional(),
  accent: colour.optional(),
  faint: colour.optional(),
});

const hatchesSchema = z
  .strictObject({
    kick: hatchName.optional(),
    bass: hatchName.optional(),
    percussion: hatchName.optional(),
    harmony: hatchName.optional(),
    voice: hatchName.optional(),
  })
  .refine((hatches) => {
    const names = Object.values(hatches).filter((n) => n !== undefined);
    return new Set(names).size === names.length;
  }, 'no two layers may have the same hatch');

/**
 * A schema with a place for every plain word of a table, however deep, and none for its sentences: those are made from
 * facts and belong to a language.
 */
function wordPlaces(table: object): z.ZodOptional<z.ZodType<Record<string, unknown>>> {
  const places: Record<string, z.ZodType> = {};
  for (const [name, value] of Object.entries(table)) {
    if (typeof value === 'string') places[name] = z.string().trim().min(1).max(LONGEST).optional();
    else if (typeof value === 'object' && value !== null) places[name] = wordPlaces(value as object);
  }
  return z.strictObject(places).optional();
}

const { tag: _tag, name: _name, ...english } = LANGUAGES.en;
void [_tag, _name];

/** A theme as it stands in a file: everything may be left out. @experimental */
export const themeSchema = z
  .strictObject({
    /** Language of all words. */
    language: z.enum(Object.keys(LANGUAGES) as [keyof typeof LANGUAGES]).optional(),
    colours: coloursSchema.optional(),
    hatches: hatchesSchema.optional(),
    /** Hollow hatches where the theme names none. */
    inkSaving: z.boolean().optional(),
    /** Words in place of ours, under the names of src/wording and of reports/words (`print`). */
    words: wordPlaces({ ...english, print: PRINT_LANGUAGES.en }),
  })
  .superRefine(({ colours }, context) => {
    const paper = colours?.paper ?? '#ffffff';
    for (const role of ['ink', 'muted', 'accent'] as const) {
      const value = colours?.[role];
      if (value === undefined || contrastRatio(value, paper) >= LEAST_CONTRAST) continue;
      const message = `${value} on ${paper} cannot be read in dim light: it needs a contrast of ${LEAST_CONTRAST} to 1`;
      context.addIssue({ code: 'custom', path: ['colours', role], message });
    }
  });

/** Version of the theme format. 1: as first made. @experimental */
export const THEME_VERSION = 1;

/**
 * A theme file (YAML, read as JSON) as JSON Schema (draft-07, which editors of YAML read); contrast it cannot say.
 * @experimental
 */
export function themeJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(themeSchema, { target: 'draft-7', io: 'input' });
}

/** Colours, hatches and words of a teacher's own. @experimental */
export type ThemeData = z.infer<typeof themeSchema>;
