import type { Attachment } from 'svelte/attachments';

/** What the keys of settling do. */
export interface SettleActs {
  /** The choice at a place, from 0. */
  choose: (place: number) => void;
  both: () => void;
  later: () => void;
  undo: () => void;
}

/** 1 to 9, B, L and Ctrl + Z, while the focus is on the screen and not in a sheet over it. */
export function settleKeys(acts: SettleActs): Attachment<HTMLElement> {
  return (inside) => {
    const screen = inside.closest<HTMLElement>('main') ?? inside;
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat || event.altKey || (event.target instanceof Element && event.target.closest('dialog'))) return;
      const act = acting(event, acts);
      if (!act) return;
      event.preventDefault();
      act();
    };
    screen.addEventListener('keydown', onKey);
    return () => screen.removeEventListener('keydown', onKey);
  };
}

function acting(event: KeyboardEvent, acts: SettleActs): (() => void) | undefined {
  const key = event.key.toLowerCase();
  if (event.ctrlKey || event.metaKey) return key === 'z' && !event.shiftKey ? acts.undo : undefined;
  if (/^[1-9]$/.test(key)) return () => acts.choose(Number(key) - 1);
  return { b: acts.both, l: acts.later }[key];
}
