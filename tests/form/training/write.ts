import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { FunctionWeights } from '../../../src/form/functions.js';
import type { Logistic, Network, Trees } from '../../../src/learned/index.js';
import { LAYERS } from '../../../src/units/index.js';
import type { BoundaryModels, LayerModels } from './fit.js';

const RECIPE = 'Made by tests/form/training/train-form.ts.';

function write(name: string, text: string): void {
  writeFileSync(fileURLToPath(new URL(`../../../src/form/weights/${name}.ts`, import.meta.url)), text);
}

/** Four significant digits are enough for scores that are summed. */
function plain(value: unknown): string {
  return JSON.stringify(value, (_, v: unknown) => (typeof v === 'number' ? Number(v.toPrecision(4)) : v));
}

export function writeLayers(models: LayerModels): void {
  writeModels('layers', 'LAYER_WEIGHTS', 'Presence of each layer in a bar.', models);
}

export function writePresence(models: LayerModels): void {
  writeModels('presence', 'PRESENCE_WEIGHTS', 'Presence of each layer in a bar, by all cues.', models);
}

function writeModels(file: string, name: string, says: string, models: LayerModels): void {
  const rows = LAYERS.map((l) => `  ${l}: ${plain(models[l])},`).join('\n');
  write(
    file,
    `import type { Layer } from '../../units/index.js';\nimport type { LayerModel } from '../layers.js';\n\n/** ${says} ${RECIPE} */\nexport const ${name}: Readonly<Record<Layer, LayerModel>> = {\n${rows}\n};\n`,
  );
}

export function writeBoundaries(models: BoundaryModels): void {
  write(
    'boundaries',
    `import type { Trees } from '../../learned/index.js';\n\n/** A phrase, and a section, starts at a bar. ${RECIPE} */\nexport const BOUNDARY_MODELS: { readonly phrase: Trees; readonly section: Trees } = ${plain(models)};\n`,
  );
}

export function writePickUps(model: Network): void {
  write(
    'pick-ups',
    `import type { Network } from '../../learned/index.js';\n\n/** Something starts so many beats before the one. ${RECIPE} */\nexport const PICK_UP_WEIGHTS: Network = ${plain(model)};\n`,
  );
}

export function writeDrivingBass(model: Network): void {
  write(
    'driving-bass',
    `import type { Network } from '../../learned/index.js';\n\n/** A bass plays in a bar, so that it drives a beat. ${RECIPE} */\nexport const DRIVING_BASS_WEIGHTS: Network = ${plain(model)};\n`,
  );
}

export function writeStruck(model: Trees): void {
  write(
    'struck',
    `import type { Trees } from '../../learned/index.js';\n\n/** Something strikes the beats of a bar without drums or bass. ${RECIPE} */\nexport const STRUCK_WEIGHTS: Trees = ${plain(model)};\n`,
  );
}

export function writeFunctions(weights: FunctionWeights): void {
  write(
    'functions',
    `import type { FunctionWeights } from '../functions.js';\n\n/** What sections do. ${RECIPE} */\nexport const FUNCTION_WEIGHTS: FunctionWeights = ${plain(weights)};\n`,
  );
}

export function writePlan(model: Logistic): void {
  write(
    'plan',
    `import type { Logistic } from '../../learned/index.js';\n\n/** Sections follow what the phrases do. ${RECIPE} */\nexport const PLAN_WEIGHTS: Logistic = ${plain(model)};\n`,
  );
}
