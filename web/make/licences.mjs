// The licences of what becomes part of the page, word for word, as one file beside it: public/licences.txt.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const parts = [
  ['Svelte', 'svelte/LICENSE.md'],
  ['uPlot', 'uplot/LICENSE'],
  ['Inter', '@fontsource-variable/inter/LICENSE'],
];

const texts = parts.map(([name, file]) => `${name}\n\n${readFileSync(at(`../node_modules/${file}`), 'utf8').trim()}\n`);
mkdirSync(at('../public/'), { recursive: true });
writeFileSync(at('../public/licences.txt'), `The page of this program holds these works of others.\n\n${texts.join('\n----\n\n')}`);
