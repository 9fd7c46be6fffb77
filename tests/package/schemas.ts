import { themeJsonSchema, THEME_VERSION } from '../../reports/index.js';
import { MATCH_VERSION, matchJsonSchema } from '../../src/matching/index.js';
import { CORRECTIONS_VERSION, correctionsJsonSchema, SCHEMA_VERSION, trackAnalysisJsonSchema } from '../../src/track/index.js'; // prettier-ignore

type JsonSchema = Record<string, unknown>;

/** The published schemas of the present versions, by their files in docs/schema. */
export function publishedSchemas(): Record<string, JsonSchema> {
  return Object.fromEntries([
    published('analysis', SCHEMA_VERSION, trackAnalysisJsonSchema(), 'What `barwise analyse --json` prints of a track'),
    published('corrections', CORRECTIONS_VERSION, correctionsJsonSchema(), 'A file of corrections, as YAML'),
    published('match', MATCH_VERSION, matchJsonSchema(), 'What `barwise match --json` prints: plans for two records'),
    published('theme', THEME_VERSION, themeJsonSchema(), 'Colours, hatches and words of printed pieces, as YAML'),
  ]);
}

function published(
  name: string,
  version: number,
  { $schema, ...rest }: JsonSchema,
  description: string,
): [string, JsonSchema] {
  // prettier-ignore
  const title = `Barwise ${name}, version ${version}`;
  return [`${name}.v${version}.json`, { $schema, $id: `urn:barwise:schema:${name}:${version}`, title, description, ...rest }]; // prettier-ignore
}
