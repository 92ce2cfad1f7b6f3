import { invoke, isTauri } from '@tauri-apps/api/core';
import { post } from './hub';

/** The one door to the core: the app's shell, or the hub that a browser got these screens from. */
export function knock(operation: string, input: unknown): Promise<unknown> {
  return isTauri() ? invoke('call', { operation, input }) : post('/call', { operation, input });
}
