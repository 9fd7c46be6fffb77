// `node src/setup/save-notebooks.mjs [NAME …]`: runs the notebooks of the package on the demo crate and saves them with
// their outputs, small. The demo crate has to be there (`npm run demo`).
import { readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = join(root, 'notebooks');
const { runNotebook } = await import(pathToFileURL(join(root, 'dist', 'src', 'notebook', 'index.js')).href);
const names = process.argv.length > 2 ? process.argv.slice(2) : readdirSync(folder).map((f) => f.replace('.ipynb', ''));

for (const name of names) {
  const file = join(folder, `${name}.ipynb`);
  const { failure } = await runNotebook({ notebook: file, out: file, lean: true, folder: root });
  console.log(
    `${name}: ${Math.round(statSync(file).size / 1000)} kB${failure ? `; cell ${failure.cell} failed: ${failure.message}` : ''}`,
  );
  if (failure) process.exitCode = 1;
}
