import { fileURLToPath } from 'node:url';
import { defineConfig, mergeConfig } from 'vite';
import base from './vite.config';

/** The screens on the invented host of `fake/`, to look at them in an ordinary browser. Never part of the product. */
export default mergeConfig(
  base,
  defineConfig({
    build: { outDir: 'fake/dist' },
    resolve: { alias: { '#door': fileURLToPath(new URL('fake/door.ts', import.meta.url)) } },
  }),
);
