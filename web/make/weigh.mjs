// Weighs the built page as it travels: every file gzipped, fonts as they are. Fails above the bound.

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const bound = 300 * 1000;
const folder = fileURLToPath(new URL('../dist/', import.meta.url));

const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
let sum = 0;
for (const file of files) {
  const text = readFileSync(`${file.parentPath ?? file.path}/${file.name}`);
  const bytes = file.name.endsWith('.woff2') ? text.length : gzipSync(text, { level: 9 }).length;
  sum += bytes;
  console.log(`${(bytes / 1000).toFixed(1).padStart(8)} kB  ${file.name}`);
}
console.log(`${(sum / 1000).toFixed(1).padStart(8)} kB  in all, at most ${bound / 1000} kB`);
if (sum > bound || files.length === 0) process.exitCode = 1;
