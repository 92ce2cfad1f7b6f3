import { pressOf } from '../../parts/pad/pad';
import { t } from '../../words';
import type { Grid } from './grid.svelte';

/**
 * The keys of a cell. Those that walk the grid are `gridKeys`' own, so they are kept from it only while a cell is typed into. It listens before anything inside
 * it does.
 */
export function cellKeys(grid: Grid): (around: HTMLElement) => () => void {
  return (around) => {
    const onKey = (event: KeyboardEvent) => {
      const target = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-slot]') : null;
      const cell = grid.cell(target?.dataset.slot);
      if (!cell) return;
      const open = grid.editing === cell.slot;
      // Leaving by Tab loses what was typed, which is said when the focus goes.
      if (open && event.key !== 'Tab') event.stopPropagation();
      if (event.altKey || event.isComposing) return;
      if (event.ctrlKey || event.metaKey) {
        if (open && event.key.toLowerCase() === 'z') act(event, () => void grid.undo());
        return;
      }
      if (open) return typing(grid, cell, event);
      if (event.key === 'F2') return act(event, () => grid.edit(cell));
      if (event.key.toLowerCase() === 't' && askedVolts(grid, event)) return;
      const pressed = pressOf(event.key);
      if (pressed && pressed.key !== 'back' && !event.repeat) act(event, () => grid.press(cell, pressed));
    };
    around.addEventListener('keydown', onKey, true);
    return () => around.removeEventListener('keydown', onKey, true);
  };
}

type Cell = NonNullable<ReturnType<Grid['cell']>>;

function typing(grid: Grid, cell: Cell, event: KeyboardEvent): void {
  switch (event.key) {
    case 'Tab':
      return;
    case 'Escape':
      return act(event, () => void grid.leave());
    case 'Enter':
      // Which unit was meant is the one thing it cannot know.
      return act(event, () => grid.refuse(t('refused-enter')));
  }
  if (event.key.toLowerCase() === 't' && askedVolts(grid, event)) return;
  const pressed = pressOf(event.key);
  // A key held down saves nothing, and types one digit.
  if (pressed) act(event, () => event.repeat || grid.press(cell, pressed));
  else if (event.key.length === 1) act(event, () => grid.refuse(t('refused-enter')));
  else event.preventDefault();
}

function askedVolts(grid: Grid, event: KeyboardEvent): boolean {
  const asks = grid.run?.ask_volts;
  if (!asks || grid.testerFirst) return false;
  act(event, () => void grid.setVolts(asks.volts));
  return true;
}

function act(event: KeyboardEvent, then: () => unknown): void {
  event.preventDefault();
  then();
}
