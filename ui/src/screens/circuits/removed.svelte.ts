import type { Done, JobId } from '../../host';

/** The board taken away last, told where its job is shown: its own screen is gone with it. */
export const removed = $state<{ job: JobId | null; done: Done | null }>({ job: null, done: null });
