import type { Attachment } from 'svelte/attachments';

/** How near to the edge of what scrolls a drag begins to scroll it, and by how much a move of the pointer does, px. */
const EDGE = 48;
const STEP = 16;

/**
 * A handle that drags its row to another place of the list; buttons do the same without dragging. `onmove` is told by
 * how many places. Escape, or a pointer that is taken away, puts the row back.
 */
export function reorder(onmove: (by: number) => void): Attachment<HTMLElement> {
  return (handle) => {
    let drag: { row: HTMLElement; from: number; startY: number; scroller: Element | null; scrolled: number } | undefined;

    const rowsOf = (row: HTMLElement) => [...(row.parentElement?.children ?? [])] as HTMLElement[];

    const placeAt = (row: HTMLElement, y: number) => {
      const others = rowsOf(row).filter((one) => one !== row);
      const below = others.findIndex((one) => {
        const box = one.getBoundingClientRect();
        return y < box.top + box.height / 2;
      });
      return below < 0 ? others.length : below;
    };

    const show = (y: number) => {
      if (!drag) return;
      const { row, startY, scroller, scrolled } = drag;
      row.style.transform = `translateY(${y - startY + (scroller?.scrollTop ?? 0) - scrolled}px)`;
      const to = placeAt(row, y);
      const others = rowsOf(row).filter((one) => one !== row);
      others.forEach((one, at) => {
        one.toggleAttribute('data-drop-before', at === to);
        one.toggleAttribute('data-drop-after', to === others.length && at === to - 1);
      });
    };

    const end = (): { row: HTMLElement; from: number } | undefined => {
      const ended = drag;
      drag = undefined;
      if (!ended) return undefined;
      ended.row.style.transform = '';
      ended.row.removeAttribute('data-dragged');
      for (const one of rowsOf(ended.row)) {
        one.removeAttribute('data-drop-before');
        one.removeAttribute('data-drop-after');
      }
      return ended;
    };

    const scroll = (by: number) => {
      if (drag?.scroller) drag.scroller.scrollTop += by;
    };

    const onDown = (event: PointerEvent) => {
      const row = handle.closest<HTMLElement>('li');
      if (!row || (event.pointerType === 'mouse' && event.button !== 0)) return;
      event.preventDefault();
      handle.setPointerCapture(event.pointerId);
      const scroller = handle.closest('main');
      drag = { row, from: rowsOf(row).indexOf(row), startY: event.clientY, scroller, scrolled: scroller?.scrollTop ?? 0 };
      row.toggleAttribute('data-dragged', true);
    };
    const onMove = (event: PointerEvent) => {
      if (!drag) return;
      const room = drag.scroller?.getBoundingClientRect();
      if (room && event.clientY < room.top + EDGE) scroll(-STEP);
      else if (room && event.clientY > room.bottom - EDGE) scroll(STEP);
      show(event.clientY);
    };
    const onUp = (event: PointerEvent) => {
      const to = drag && placeAt(drag.row, event.clientY);
      const ended = end();
      if (ended && to !== undefined && to !== ended.from) onmove(to - ended.from);
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && end()) event.preventDefault();
    };

    handle.addEventListener('pointerdown', onDown);
    handle.addEventListener('pointermove', onMove);
    handle.addEventListener('pointerup', onUp);
    handle.addEventListener('pointercancel', end);
    window.addEventListener('keydown', onKey);
    return () => {
      handle.removeEventListener('pointerdown', onDown);
      handle.removeEventListener('pointermove', onMove);
      handle.removeEventListener('pointerup', onUp);
      handle.removeEventListener('pointercancel', end);
      window.removeEventListener('keydown', onKey);
    };
  };
}
