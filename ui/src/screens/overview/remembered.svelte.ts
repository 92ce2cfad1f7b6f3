import type { JobId } from '../../host';

export type Shown = 'all' | 'lacking' | 'unsigned' | 'unproved';

/** Which jobs were shown, and which one was opened: whoever comes back goes on from there. */
export const remembered = $state<{ shown: Shown; job: JobId | null }>({ shown: 'all', job: null });
