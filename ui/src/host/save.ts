import type { WrittenFile } from './generated/operations';
import { fileOf } from './share';

/** How long a browser may take to begin keeping a file, before its address is let go. */
const KEPT_MS = 60_000;

/** Gives files to the browser, which puts them where it puts what is downloaded: they were written on the hub's machine. */
export function save(files: WrittenFile[]): void {
  for (const file of files.map(fileOf)) {
    const address = URL.createObjectURL(file);
    const link = document.createElement('a');
    link.href = address;
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
  }
}
