import type { Attachment } from 'svelte/attachments';
import type { JobId } from '../../host';

/** What the keys of the overview do with the job of a row. */
export interface OverviewActs {
  open: (job: JobId) => void;
  look: (job: JobId) => void;
  schedule: (job: JobId) => void;
  unproved: (job: JobId) => void;
  choose: (job: JobId) => void;
}

/** Enter, Space, L, S and U, while the focus is in a row of the table that says its job. */
export function overviewKeys(acts: OverviewActs): Attachment<HTMLElement> {
  return (table) => {
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat || event.altKey || event.ctrlKey || event.metaKey || !(event.target instanceof HTMLElement)) return;
      const job = event.target.closest<HTMLElement>('[data-job]')?.dataset.job;
      const act = acting(event.key, event.target, acts);
      if (job === undefined || !act) return;
      event.preventDefault();
      act(job);
    };
    table.addEventListener('keydown', onKey);
    return () => table.removeEventListener('keydown', onKey);
  };
}

function acting(key: string, on: HTMLElement, acts: OverviewActs): ((job: JobId) => void) | undefined {
  // What a control does by itself by such a key stays: Enter follows a link, Space ticks a box and presses a button.
  if (key === 'Enter') return on instanceof HTMLInputElement ? acts.open : undefined;
  if (key === ' ') return on instanceof HTMLAnchorElement ? acts.choose : undefined;
  return { l: acts.look, s: acts.schedule, u: acts.unproved }[key.toLowerCase()];
}
