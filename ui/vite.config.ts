import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// The floor of web views the product declares: iOS 17.2, Android WebView 120, WebKitGTK 2.44.
export default defineConfig({
  plugins: [svelte()],
  base: './',
  // Tests and the invented host read the labels where they are kept.
  server: { fs: { allow: ['..'] } },
  build: { target: ['safari17.2', 'chrome120'], assetsInlineLimit: 0, sourcemap: false },
  test: {
    environment: 'jsdom',
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/browser.ts'],
    alias: { '#door': fileURLToPath(new URL('fake/door.ts', import.meta.url)) },
  },
  // Under vitest Svelte has to be its browser build, or components cannot be mounted.
  ...(process.env['VITEST'] ? { resolve: { conditions: ['browser'] } } : {}),
});
