import type { WrittenFile } from './generated/operations';
import { fileOf } from './share';

/** How long a browser may take to begin keeping a file, before its address is let go. */
const KEPT_MS = 60_000;

/** Gives a file to the browser, which puts it where it puts what is downloaded: it was written on the hub's machine. */
export function save(written: WrittenFile): void {
  const file = fileOf(written);
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}
