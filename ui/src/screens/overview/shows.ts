import type { OverviewJob } from '../../host';
import type { Shown } from './remembered.svelte';

export const FILTERS: Shown[] = ['all', 'lacking', 'unsigned', 'unproved'];

/** Whether a job is among those shown. */
export const shows: Record<Shown, (job: OverviewJob) => boolean> = {
  all: () => true,
  lacking: (job) => job.lacks.length > 0,
  unsigned: (job) => !job.is_signed,
  unproved: (job) => job.unproved > 0,
};
