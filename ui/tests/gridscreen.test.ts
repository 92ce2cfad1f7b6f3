import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi, type Mock } from 'vitest';
import * as door from '../fake/door';
import { call } from '../src/host';
import GridScreen from '../src/screens/grid/GridScreen.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;
let knocks: Mock<typeof door.knock>;

async function settle(): Promise<void> {
  for (let turn = 0; turn < 40; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

const cell = (slot: string) => document.querySelector<HTMLElement>(`[data-slot="${slot}"]`)!;
const said = () => document.getElementById('grid-said')?.textContent;
const focused = () => (document.activeElement as HTMLElement).dataset.slot;
const editor = () => document.querySelector<HTMLInputElement>('input[data-slot]');
const asked = (operation: string) => knocks.mock.calls.filter(([one]) => one === operation).map(([, input]) => input);

async function press(key: string, more: KeyboardEventInit = {}): Promise<void> {
  document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }));
  await settle();
}

async function type(keys: string): Promise<void> {
  for (const key of keys) await press(key);
}

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  await call('run', { board: 'fresh' });
  knocks = vi.spyOn(door, 'knock');
  screen = mount(GridScreen, { target: document.body, props: { board: 'b2' } });
  await settle();
  cell('c7-0').focus();
});

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
});

describe('a board as a grid', () => {
  it('is one Tab stop, walked by arrows', async () => {
    const stops = [...document.querySelectorAll<HTMLElement>('[data-slot]')].filter((one) => one.tabIndex === 0);
    expect(stops).toHaveLength(1);
    await press('ArrowDown');
    expect(focused()).toBe('c8-0');
    await press('End', { ctrlKey: true });
    expect(focused()).toBe('c9-4');
  });

  it('takes a figure by its digits and a unit, goes on to the next open cell, and says so once', async () => {
    await type('4');
    expect(editor()?.value).toBe('4');
    await type('87m');
    expect(asked('save_reading')).toEqual([{ board: 'b2', slot: 'c7-0', indication: { typed: { text: '487', comparator: 'exact', unit: 'm' } } }]);
    expect(cell('c7-0').textContent).toContain('487');
    expect(focused()).toBe('c7-1');
    expect(editor()).toBeNull();
    expect(said()).toContain('Saved 487');
    expect(asked('draft')).toEqual([]);
  });

  it('saves nothing by Enter, by Esc, or by a letter with no digits', async () => {
    await type('m');
    expect(said()).toBe('Enter the reading first');
    await type('48');
    await press('Enter');
    expect(said()).toBe('Press k, m or g');
    expect(editor()?.value).toBe('48');
    await press('Escape');
    expect(editor()).toBeNull();
    expect(focused()).toBe('c7-0');
    expect(said()).toBe('48 was not saved: k, m or g saves');
    expect(asked('save_reading')).toEqual([]);
  });

  it('keeps the keys that walk from a cell that is typed into, and types with what stands there', async () => {
    await press('F2');
    expect(editor()?.value).toBe('');
    await type('>1');
    for (const key of ['ArrowDown', 'ArrowRight', 'Home', 'End', 'PageDown']) await press(key);
    expect(focused()).toBe('c7-0');
    expect(editor()?.value).toBe('>1');
    await type('5');
    await press('Backspace');
    expect(editor()?.value).toBe('>1');
  });

  it('saves once, however long the key is held', async () => {
    await type('4');
    await press('m');
    await press('m', { repeat: true });
    await press('4', { repeat: true });
    expect(asked('save_reading')).toHaveLength(1);
    expect(editor()).toBeNull();
  });

  it('asks for a reason where a figure stands, and keeps what was typed until it has one', async () => {
    await type('487m');
    cell('c7-0').focus();
    await press('F2');
    expect(editor()?.value).toBe('487');
    await press('Escape');
    await type('512m');
    expect(asked('replace_reading')).toEqual([]);
    expect(document.getElementById('grid-why')).not.toBeNull();
    document.getElementById('grid-why')?.dispatchEvent(new Event('cancel'));
    await settle();
    expect(editor()?.value).toBe('512');
    await type('m');
    document.getElementById('grid-why-repeated')?.focus();
    await press('1');
    expect(asked('replace_reading')).toEqual([
      { job: 'j1', reading: 'r-c7-0', text: '512', comparator: 'exact', unit: 'm', why: 'mistyped' },
    ]);
    expect(asked('save_reading')).toHaveLength(1);
    expect(focused()).toBe('c7-1');
  });

  it('saves nothing before it is said how the tester is set', async () => {
    cell('c9-1').focus();
    await type('487m');
    expect(asked('save_reading')).toEqual([]);
    expect(said()).toBe('Say first how the tester is set');
    await type('t');
    expect(asked('set_volts')).toEqual([{ board: 'b2', volts: 250 }]);
    expect(editor()?.value).toBe('487');
    await type('m');
    expect(asked('save_reading')).toMatchObject([{ slot: 'c9-1' }]);
  });

  it('takes the last one back', async () => {
    await type('487m');
    await press('z', { ctrlKey: true });
    expect(asked('undo_reading')).toHaveLength(1);
    expect(focused()).toBe('c7-0');
    expect(said()).toBe('Took back 487 MΩ');
  });

  /** jsdom has no clipboard. */
  function clip(kind: 'copy' | 'paste', text = ''): { prevented: boolean; text: string } {
    const held = { text };
    const event = new Event(kind, { bubbles: true, cancelable: true });
    const clipboardData = { getData: () => held.text, setData: (_: string, put: string) => (held.text = put) };
    document.activeElement?.dispatchEvent(Object.assign(event, { clipboardData }));
    return { prevented: event.defaultPrevented, text: held.text };
  }

  it('copies its readings, and looks at a table that is pasted before anything of it is taken', async () => {
    expect(clip('copy').text).toContain('Comparator');
    expect(clip('paste', 'circuit\tpair').prevented).toBe(true);
    await settle();
    expect(asked('preview_readings')).toEqual([{ board: 'b2', text: 'circuit\tpair', format: 'tsv' }]);
    expect(asked('import_readings')).toEqual([]);
    expect(document.getElementById('import-sum')?.textContent).toBe('In 1 = new 1 + same 0 + not taken 0');
    document.getElementById('import-take')?.click();
    await settle();
    expect(asked('import_readings')).toHaveLength(1);
    expect(document.getElementById('import-sum')).toBeNull();
    expect(document.activeElement?.id).toBe('undo');
  });

  it('takes no table with a line that cannot be taken', async () => {
    clip('paste', 'wrong');
    await settle();
    expect(document.querySelector('.complaints')?.textContent).toContain('Line 3: Write the unit');
    expect((document.getElementById('import-take') as HTMLButtonElement).disabled).toBe(true);
  });
});
