import type { Attachment } from 'svelte/attachments';

/** A key that bounces comes down again sooner than any finger does. Fixed on purpose: a key must always behave alike. */
const BOUNCE_MS = 80;

/**
 * Acts when the pointer goes *up* inside the key it came down on; sliding off cancels. Marks the key with `data-down`
 * meanwhile, as `:active` is unreliable on touch. Clicks without a pointer (keyboard, screen reader) act as well.
 */
export function press(act: () => void): Attachment<HTMLElement> {
  return (key) => {
    const down = new Set<number>();
    let releasedAt = -Infinity;

    const show = () => key.toggleAttribute('data-down', down.size > 0);

    const onDown = (event: PointerEvent) => {
      if (event.pointerType === 'mouse' && event.button !== 0) return;
      if (event.timeStamp - releasedAt < BOUNCE_MS) return;
      down.add(event.pointerId);
      show();
    };
    const onUp = (event: PointerEvent) => {
      if (!down.delete(event.pointerId)) return;
      show();
      releasedAt = event.timeStamp;
      if (inside(key, event)) act();
    };
    const onCancel = (event: PointerEvent) => {
      down.delete(event.pointerId);
      show();
    };
    const onClick = (event: MouseEvent) => {
      // `detail` counts pointer clicks, which `onUp` has already answered.
      if (event.detail === 0) act();
    };

    key.addEventListener('pointerdown', onDown);
    window.addEventListener('pointerup', onUp);
    window.addEventListener('pointercancel', onCancel);
    key.addEventListener('click', onClick);
    return () => {
      key.removeEventListener('pointerdown', onDown);
      window.removeEventListener('pointerup', onUp);
      window.removeEventListener('pointercancel', onCancel);
      key.removeEventListener('click', onClick);
    };
  };
}

function inside(key: HTMLElement, at: { clientX: number; clientY: number }): boolean {
  const box = key.getBoundingClientRect();
  return at.clientX >= box.left && at.clientX <= box.right && at.clientY >= box.top && at.clientY <= box.bottom;
}
