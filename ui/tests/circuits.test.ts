import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi, type Mock } from 'vitest';
import * as door from '../fake/door';
import { call } from '../src/host';
import CircuitsScreen from '../src/screens/circuits/CircuitsScreen.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;
let knocks: Mock<typeof door.knock>;

async function settle(): Promise<void> {
  for (let turn = 0; turn < 30; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

const rows = () => [...document.querySelectorAll<HTMLElement>('ol > li')];
const openers = () => rows().map((row) => row.querySelector<HTMLElement>('.open')!);
const references = () => rows().map((row) => row.querySelector('.reference')?.textContent);
const moves = () => knocks.mock.calls.filter(([operation]) => operation === 'move_circuit').map(([, input]) => input);

function press(on: Element, key: string, more: KeyboardEventInit = {}): void {
  on.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }));
  flushSync();
}

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  knocks = vi.spyOn(door, 'knock');
  screen = mount(CircuitsScreen, { target: document.body, props: { board: 'b2' } });
  await settle();
});

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
  Reflect.deleteProperty(navigator, 'clipboard');
});

describe('the order of circuits', () => {
  it('is changed by Alt and an arrow, and the focus goes along', async () => {
    const before = references();
    const second = openers()[1]!;
    second.focus();
    press(second, 'ArrowUp', { altKey: true });
    await settle();
    expect(moves()).toMatchObject([{ by: -1 }]);
    expect(references()).toEqual([before[1], before[0], ...before.slice(2)]);
    expect(document.activeElement).toBe(openers()[0]);
  });

  /** Rows of 50 px, one below the other. */
  const laidOut = () => {
    rows().forEach((row, at) => {
      row.getBoundingClientRect = () => new DOMRect(0, at * 50, 300, 50);
    });
  };
  const drag = (kind: string, grip: Element, clientY: number) =>
    grip.dispatchEvent(new PointerEvent(kind, { bubbles: true, pointerId: 1, pointerType: 'mouse', clientY }));

  it('is changed by dragging, by as many places as the row was carried', async () => {
    laidOut();
    const grip = rows()[0]!.querySelector('.grip')!;
    drag('pointerdown', grip, 25);
    drag('pointermove', grip, 130);
    expect(rows()[3]?.hasAttribute('data-drop-before')).toBe(true);
    drag('pointerup', grip, 130);
    await settle();
    expect(moves()).toMatchObject([{ by: 2 }]);
    expect(document.querySelector('[data-drop-before], [data-dragged]')).toBeNull();
  });

  it('stays when the drag is given up', async () => {
    laidOut();
    const grip = rows()[0]!.querySelector('.grip')!;
    drag('pointerdown', grip, 25);
    drag('pointermove', grip, 130);
    press(document.body, 'Escape');
    drag('pointerup', grip, 130);
    await settle();
    expect(moves()).toEqual([]);
  });
});

describe('the question mark', () => {
  it('shows the keys of the list that has the focus, and nothing elsewhere', async () => {
    press(document.getElementById('record')!, '?');
    await settle();
    expect(document.getElementById('keys')).toBeNull();
    press(openers()[0]!, '?');
    await settle();
    expect(document.getElementById('keys')?.textContent).toContain('Alt + arrow up or down: move the circuit');
  });
});

describe('copying out', () => {
  async function copy(): Promise<void> {
    document.getElementById('circuits-copy')?.click();
    await settle();
    document.getElementById('copy-readings')?.click();
    await settle();
  }

  it('puts the table on the clipboard', async () => {
    const writeText = vi.fn(() => Promise.resolve());
    Object.defineProperty(navigator, 'clipboard', { value: { writeText }, configurable: true });
    await copy();
    expect(writeText).toHaveBeenCalledWith('Circuit\tComparator\tDigits\tUnit\n1\texact\t487\tMΩ');
    expect(document.querySelector('dialog [role="status"]')?.textContent).toBe('The readings are on the clipboard');
  });

  it.each([
    ['there is none', undefined],
    ['it refuses', { writeText: () => Promise.reject(new Error('not allowed')) }],
  ])('shows the text to copy where %s', async (_, clipboard) => {
    if (clipboard) Object.defineProperty(navigator, 'clipboard', { value: clipboard, configurable: true });
    await copy();
    const area = document.querySelector<HTMLTextAreaElement>('#copy-text');
    expect(area?.value).toContain('exact\t487\tMΩ');
    expect(document.activeElement).toBe(area);
  });
});
