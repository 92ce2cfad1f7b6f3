import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// The floor of web views the product declares: iOS 17.2, Android WebView 120, WebKitGTK 2.44.
export default defineConfig({
  plugins: [svelte()],
  base: './',
  build: { target: ['safari17.2', 'chrome120'], assetsInlineLimit: 0, sourcemap: false },
  // Under vitest Svelte has to be its browser build, or components cannot be mounted.
  ...(process.env['VITEST'] ? { resolve: { conditions: ['browser'] } } : {}),
  test: { environment: 'jsdom', include: ['tests/**/*.test.ts'] },
});
