import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { PluginOption } from 'vite';
import { defineConfig } from 'vitest/config';

import { fixtures } from './make/fixtures.ts';

// PORTWRIGHT_SERVE: address of a running `portwright serve` that `npm run dev` asks; the page then talks to it as if
// it had been served by it.
const served = process.env['PORTWRIGHT_SERVE'] ?? '';

const tested = process.env['VITEST'] !== undefined;

/** Modules with runes as a browser has them, also in tests: built for a server, their effects would never run. */
function asInBrowser(): PluginOption[] {
  return svelte().map((plugin) => {
    const transform = plugin.transform;
    if (typeof transform !== 'function') return plugin;
    return { ...plugin, transform(code, id, options) { return transform.call(this, code, id, { ...options, ssr: false }); } };
  });
}

export default defineConfig(({ mode }) => ({
  plugins: [tested ? asInBrowser() : svelte(), ...(mode === 'look' ? [fixtures()] : [])],
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
  ...(!tested ? {} : { resolve: { conditions: ['browser'] } }),
  test: { include: ['test/**/*.test.ts'], environment: 'node', setupFiles: ['test/setup.ts'] },
}));
