import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

import { fixtures } from './make/fixtures.ts';

// PORTWRIGHT_SERVE: address of a running `portwright serve` that `npm run dev` asks; the page then talks to it as if
// it had been served by it.
const served = process.env['PORTWRIGHT_SERVE'] ?? '';

export default defineConfig(({ mode }) => ({
  plugins: [svelte(), ...(mode === 'look' ? [fixtures()] : [])],
  build: {
    target: 'es2021',
    outDir: 'dist',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: {
    host: '127.0.0.1',
    ...(served === '' ? {} : { proxy: { '/api': { target: served, changeOrigin: true, headers: { Origin: served } } } }),
  },
  ...(process.env['VITEST'] === undefined ? {} : { resolve: { conditions: ['browser'] } }),
  test: { include: ['test/**/*.test.ts'], environment: 'node', setupFiles: ['test/setup.ts'] },
}));
