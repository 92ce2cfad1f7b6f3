import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Every source file of the product with one of the endings, as [path, text]. */
export function sources(...endings: string[]): [string, string][] {
  return readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((path) => endings.some((ending) => path.endsWith(ending)))
    .map((path) => [path, readFileSync(join('src', path), 'utf8')]);
}

/** The files of the catalogue that screens take their labels from. */
export const CATALOGUE = ['ui', 'bench-ui'].map((name) => `../src-tauri/crates/words/catalogue/en/${name}.ftl`);

export function catalogue(): string {
  return CATALOGUE.map((file) => readFileSync(file, 'utf8')).join('\n');
}
