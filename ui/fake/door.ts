import benchUi from '../../src-tauri/crates/words/catalogue/en/bench-ui.ftl?raw';
import ui from '../../src-tauri/crates/words/catalogue/en/ui.ftl?raw';
import { answer } from './host';

/** Stands in for the core, with invented data, so that screens can be looked at without one. */
export async function knock(operation: string, input: unknown): Promise<unknown> {
  if (operation === 'catalogue') return { locale: 'en', ftl: `${ui}\n${benchUi}` };
  return structuredClone(answer(operation, input));
}
