import type { Attachment } from 'svelte/attachments';

const ROW = 'tbody tr, [data-row]';

/**
 * Makes a table, or a list whose rows say `data-row`, one Tab stop with arrow keys inside, as the ARIA grid pattern has it: arrows, Home and End in the row,
 * Ctrl+Home and Ctrl+End in the table, Page Up and Page Down by ten rows. Each row's controls are its cells.
 */
export const gridKeys: Attachment<HTMLElement> = (table) => {
  const rows = () =>
    [...table.querySelectorAll<HTMLElement>(ROW)]
      .map((row) => [...row.querySelectorAll<HTMLElement>('button:not(:disabled), a[href], input')].filter((cell) => shown(cell)))
      .filter((cells) => cells.length > 0);

  let current: HTMLElement | undefined;

  const settle = () => {
    const cells = rows().flat();
    if (!current || !cells.includes(current)) current = cells[0];
    for (const cell of cells) cell.tabIndex = cell === current ? 0 : -1;
  };

  const onFocus = (event: FocusEvent) => {
    if (event.target instanceof HTMLElement && event.target.closest(ROW)) {
      current = event.target;
      settle();
    }
  };

  const onKey = (event: KeyboardEvent) => {
    // With Alt the arrows move what the row is, not the focus.
    if (event.altKey) return;
    const grid = rows();
    const down = grid.findIndex((cells) => cells.includes(event.target as HTMLElement));
    if (down < 0) return;
    const across = grid[down]?.indexOf(event.target as HTMLElement) ?? 0;
    const to = move(event, grid, down, across);
    if (!to) return;
    event.preventDefault();
    to.focus();
  };

  table.addEventListener('focusin', onFocus);
  table.addEventListener('keydown', onKey);
  const watch = new MutationObserver(settle);
  watch.observe(table, { childList: true, subtree: true });
  settle();
  return () => {
    table.removeEventListener('focusin', onFocus);
    table.removeEventListener('keydown', onKey);
    watch.disconnect();
  };
};

/** A control that is laid out: some are only where there is room. `display: none` alone has no box at all. */
function shown(cell: HTMLElement): boolean {
  return getComputedStyle(cell).display !== 'none';
}

function move(event: KeyboardEvent, grid: HTMLElement[][], down: number, across: number): HTMLElement | undefined {
  const row = grid[down] ?? [];
  const cell = (at: number) => {
    const cells = grid[Math.min(Math.max(at, 0), grid.length - 1)] ?? [];
    return cells[Math.min(across, cells.length - 1)];
  };
  switch (event.key) {
    case 'ArrowUp':
      return cell(down - 1);
    case 'ArrowDown':
      return cell(down + 1);
    case 'ArrowLeft':
      return row[across - 1] ?? row[0];
    case 'ArrowRight':
      return row[across + 1] ?? row.at(-1);
    case 'PageUp':
      return cell(down - 10);
    case 'PageDown':
      return cell(down + 10);
    case 'Home':
      return event.ctrlKey ? grid[0]?.[0] : row[0];
    case 'End':
      return event.ctrlKey ? grid.at(-1)?.at(-1) : row.at(-1);
    default:
      return undefined;
  }
}
