import { invoke } from '@tauri-apps/api/core';

/** The one door to the core. Only this file knows what carries a call. */
export function knock(operation: string, input: unknown): Promise<unknown> {
  return invoke('call', { operation, input });
}
