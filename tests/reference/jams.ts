import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Ajv, { type ValidateFunction } from 'ajv';

const root = join(
  process.env.BARWISE_REFERENCE ?? fileURLToPath(new URL('../../../shared/reference', import.meta.url)),
  'jams',
);
export const jamsSchemaFound = existsSync(root);
export const jamsSkipNote = jamsSchemaFound ? '' : ' (skipped: set BARWISE_REFERENCE to a folder that holds jams/)';

const draft04 = createRequire(import.meta.url)('ajv/lib/refs/json-schema-draft-04.json') as object;

/** The JSON schema that is published with JAMS (Humphrey et al., ISMIR 2014), draft-04. */
export function jamsSchema(): ValidateFunction {
  return compiled(JSON.parse(readFileSync(join(root, 'jams_schema.json'), 'utf8')) as object);
}

/** What the published file of a namespace demands of a value. @param file e.g. `beat_position` */
export function valueSchema(file: string, namespace: string): ValidateFunction {
  const all = JSON.parse(readFileSync(join(root, 'namespaces', `${file}.json`), 'utf8')) as Record<
    string,
    { value: object }
  >;
  return compiled(all[namespace].value);
}

function compiled(schema: object): ValidateFunction {
  const ajv = new Ajv({ schemaId: 'id', meta: false, unknownFormats: 'ignore' });
  ajv.addMetaSchema(draft04);
  return ajv.compile({ ...schema, $schema: 'http://json-schema.org/draft-04/schema#' });
}
