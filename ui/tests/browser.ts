/** What jsdom lacks of a browser, as far as the screens touch it. */

class NoObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
}

Object.assign(window, {
  ResizeObserver: NoObserver,
  matchMedia: (query: string) => ({ matches: false, media: query, addEventListener() {}, removeEventListener() {} }),
});
Object.assign(globalThis, { ResizeObserver: NoObserver });

class Pointer extends MouseEvent {
  readonly pointerId: number;
  readonly pointerType: string;

  constructor(kind: string, init: PointerEventInit = {}) {
    super(kind, init);
    this.pointerId = init.pointerId ?? 0;
    this.pointerType = init.pointerType ?? '';
  }
}

Object.assign(globalThis, { PointerEvent: Pointer });

Element.prototype.setPointerCapture = () => undefined;
Element.prototype.scrollIntoView = () => undefined;

HTMLDialogElement.prototype.showModal = function () {
  this.open = true;
};
HTMLDialogElement.prototype.close = function () {
  this.open = false;
};
