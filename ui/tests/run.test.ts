import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import * as door from '../fake/door';
import { call } from '../src/host';
import RunScreen from '../src/screens/run/RunScreen.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;

const byId = (id: string): HTMLElement => {
  const found = document.getElementById(id);
  if (!found) throw new Error(`nothing has the id ${id}`);
  return found;
};
const entry = () => byId('entry').textContent?.trim();
const readBack = () => byId('read-back').textContent?.replace(/\s+/g, ' ').trim();
const alertWords = () => document.querySelector('[role="alert"]')?.textContent;

/** Lets every waiting answer of the host arrive. */
async function settle(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

/** A touch that comes down and goes up inside a key, at a moment. */
function touch(id: string, at: number, up: { clientX?: number } = {}): void {
  const send = (target: EventTarget, kind: string, when: number, more = {}) => {
    const event = new PointerEvent(kind, { bubbles: true, pointerId: 1, pointerType: 'touch', ...more });
    Object.defineProperty(event, 'timeStamp', { value: when });
    target.dispatchEvent(event);
  };
  send(byId(id), 'pointerdown', at);
  send(byId(id), 'pointerup', at + 40, up);
  flushSync();
}

async function type(keys: string): Promise<void> {
  for (const key of keys) {
    window.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    flushSync();
  }
  await settle();
}

/** The time in which saving keys are dead, and that of an announcement. */
async function rest(): Promise<void> {
  vi.advanceTimersByTime(2000);
  await settle();
}

beforeEach(async () => {
  vi.useFakeTimers();
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  await call('run', { board: 'fresh' });
  screen = mount(RunScreen, { target: document.body, props: { board: 'b2', to: null } });
  await settle();
});

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
  vi.useRealTimers();
});

describe('a reading', () => {
  it('is typed, saved by its unit key and read back, and the next pair is open', async () => {
    const knocks = vi.spyOn(door, 'knock');
    await type('487m');
    expect(readBack()).toBe('L1–L2 487 MΩ');
    expect(document.querySelector('h1')?.textContent).toBe('L1–PE');
    expect(entry()).toBe('');
    expect(knocks.mock.calls.filter(([operation]) => operation === 'save_reading')).toHaveLength(1);
  });

  it('over-range is one touch', async () => {
    touch('key-over', 0);
    await settle();
    expect(readBack()).toBe('L1–L2 > 999 MΩ');
  });

  it('is announced once, and no key is', async () => {
    const announced: string[] = [];
    const region = document.querySelector('[data-announce]');
    new MutationObserver(() => announced.push(region?.textContent ?? '')).observe(region!, { childList: true, characterData: true, subtree: true });
    await type('48');
    expect(announced).toEqual([]);
    await type('7m');
    expect(new Set(announced)).toEqual(new Set(['Saved 487 MΩ for L1–L2. meets 1.0 MΩ at 500 V']));
  });

  it('goes to the core with each key', async () => {
    const knocks = vi.spyOn(door, 'knock');
    await type('4');
    await type('8');
    const drafts = knocks.mock.calls.filter(([operation]) => operation === 'draft').map(([, input]) => input);
    expect(drafts).toMatchObject([{ text: '4' }, { text: '48' }]);
  });

  it('is not shown as saved when the core did not save it', async () => {
    const real = door.knock;
    vi.spyOn(door, 'knock').mockImplementation((operation, input) =>
      operation === 'save_reading'
        ? Promise.reject({ code: 'storage', words: 'Phone storage is full', complaints: [], detail: null })
        : real(operation, input),
    );
    await type('487m');
    expect(readBack()).toBe('');
    expect(entry()).toBe('487');
    expect(alertWords()).toContain('Phone storage is full');
  });
});

describe('saving keys rest after a save', () => {
  it('a double tap does not record the next pair, and says so', async () => {
    touch('key-over', 0);
    await settle();
    touch('key-over', 300);
    await settle();
    expect(document.querySelector('h1')?.textContent).toBe('L1–PE');
    expect([...document.querySelectorAll('[role="alert"]')].at(-1)?.textContent).toBe('Just saved: wait a moment');
    expect(byId('key-m').getAttribute('aria-disabled')).toBe('true');
    await rest();
    expect(byId('key-m').getAttribute('aria-disabled')).toBeNull();
    touch('key-over', 3000);
    await settle();
    expect(readBack()).toBe('L1–PE > 999 MΩ');
  });

  it('digits are taken meanwhile', async () => {
    await type('487m');
    await type('52');
    expect(entry()).toBe('52');
  });
});

describe('the key that says the tester is set', () => {
  it('rests like a saving key, and so does over-range after it', async () => {
    for (let pair = 0; pair < 9; pair += 1) {
      await type('487m');
      await rest();
    }
    await type('487m');
    touch('key-volts', 0);
    await settle();
    expect(document.getElementById('key-volts')).not.toBeNull();
    await rest();
    touch('key-volts', 5000);
    await settle();
    const before = readBack();
    touch('key-over', 5300);
    await settle();
    expect(readBack()).toBe(before);
  });
});

describe('moving on to the next circuit', () => {
  const heading = () => document.querySelector('.circuit')?.textContent?.replace(/\s+/g, ' ').trim();

  it('is felt long and said for two seconds, and over-range is armed after it', async () => {
    const felt: number[][] = [];
    Object.assign(navigator, { vibrate: (pattern: number[]) => felt.push(pattern) });
    for (let pair = 0; pair < 4; pair += 1) {
      await type('o');
      await rest();
    }
    felt.length = 0;
    await type('o');
    expect(felt).toEqual([[120]]);
    expect(heading()).toBe('Now circuit 8 · Oven');
    vi.advanceTimersByTime(1500);
    await settle();
    const before = readBack();
    touch('key-over', 0);
    await settle();
    expect(readBack()).toBe(before);
    vi.advanceTimersByTime(600);
    await settle();
    expect(heading()).toContain('8 Oven');
    touch('key-over', 3000);
    await settle();
    expect(readBack()).toBe('L1–L2 > 999 MΩ');
    Reflect.deleteProperty(navigator, 'vibrate');
  });

  it('to another test voltage is announced ahead, in the header', async () => {
    const ahead = () => document.querySelector('header .ahead')?.textContent;
    expect(ahead()).toBeUndefined();
    for (let pair = 0; pair < 5; pair += 1) {
      await type('o');
      await rest();
    }
    expect(ahead()).toBe('250 V from circuit 9 on');
  });
});

describe('without a tester', () => {
  beforeEach(async () => {
    await call('run', { board: 'no-tester' });
    await unmount(screen);
    screen = mount(RunScreen, { target: document.body, props: { board: 'b2', to: null } });
    await settle();
  });

  it('one is chosen before it is said how it is set', async () => {
    expect(document.getElementById('key-volts')).toBeNull();
    expect(byId('key-tester').textContent?.trim()).toBe('Choose a tester');
    await type('t');
    expect(byId('key-tester')).not.toBeNull();
    touch('key-tester', 0);
    await settle();
    document.querySelector<HTMLElement>('dialog li button')?.click();
    await settle();
    expect(byId('key-volts').textContent?.trim()).toBe('Tester set to 500 V');
  });

  it('one can go on, as the record then says', async () => {
    touch('key-no-tester', 0);
    await settle();
    touch('key-volts', 1000);
    await settle();
    await rest();
    await type('487m');
    expect(readBack()).toBe('L1–L2 487 MΩ');
  });
});

describe('circuits tested together', () => {
  const open = async () => {
    document.querySelector<HTMLElement>('.more')?.click();
    await settle();
    byId('more-group').click();
    await settle();
  };

  it('are chosen, those that cannot be among them say why, and one act joins them', async () => {
    const knocks = vi.spyOn(door, 'knock');
    await open();
    expect(byId('group-start').hasAttribute('disabled')).toBe(true);
    byId('group-c7').click();
    await settle();
    expect(byId('group-c9').hasAttribute('disabled')).toBe(true);
    expect(byId('group-c9').closest('label')?.textContent).toContain('asks for 250 V, circuit 7 for 500 V');
    byId('group-c8').click();
    await settle();
    expect(byId('group-words').textContent).toBe('all lives of 7, 8 – PE: 500 V, 1.0 MΩ');
    byId('group-start').click();
    await settle();
    expect(knocks.mock.calls.filter(([operation]) => operation === 'start_group').map(([, input]) => input)).toEqual([
      { board: 'b2', circuits: ['c7', 'c8'] },
    ]);
    expect(document.querySelector('dialog')).toBeNull();

    await open();
    expect(byId('group-c8')).toHaveProperty('checked', true);
    byId('group-stop').click();
    await settle();
    await open();
    expect(document.getElementById('group-stop')).toBeNull();
  });
});

describe('touch', () => {
  it('that slides off a key does nothing', () => {
    touch('key-4', 0, { clientX: 500 });
    expect(entry()).toBe('');
  });

  it('of the same key within 80 ms of its release is a bounce', () => {
    touch('key-4', 0);
    touch('key-4', 90);
    expect(entry()).toBe('4');
    touch('key-4', 300);
    expect(entry()).toBe('44');
  });
});

describe('hardware keys', () => {
  it('Enter saves nothing and says which key would', async () => {
    await type('487');
    window.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
    await settle();
    expect(entry()).toBe('487');
    expect(document.querySelector('.refused')?.textContent?.trim()).toBe('Press k, m or g');
  });

  it('Ctrl+Z brings the old digits back to their pair', async () => {
    await type('487m');
    window.dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true }));
    await settle();
    expect(document.querySelector('h1')?.textContent).toBe('L1–L2');
    expect(entry()).toBe('487');
  });

  it('record a whole board, with the tester set where the next circuit asks for it', async () => {
    for (let pair = 0; pair < 15; pair += 1) {
      if (document.getElementById('key-volts')) {
        await type('t');
        await rest();
      }
      await type(pair % 2 ? 'o' : '487m');
      await rest();
    }
    expect(document.querySelector('h1')?.textContent).toBe('All 15 pairs of Board DB-2 are recorded');
  });
});

describe('the run screen', () => {
  it('has no text input, so no keyboard of the system ever covers it', () => {
    expect(document.querySelectorAll('input, textarea, [contenteditable]')).toHaveLength(0);
  });

  it('saves nothing before the tester is set to what the circuit asks', async () => {
    for (let pair = 0; pair < 10; pair += 1) {
      await type('487m');
      await rest();
    }
    expect(byId('key-volts').textContent?.trim()).toBe('Tester set to 250 V');
    expect(document.getElementById('key-m')).toBeNull();
    const before = readBack();
    await type('487m');
    expect(readBack()).toBe(before);
  });
});

describe('a new reading that is asked for', () => {
  it('is said on its pair, marked on the strip and on the list, and gone once it is there', async () => {
    await call('run', { board: 'b2', slot: 'c9-0' });
    await unmount(screen);
    screen = mount(RunScreen, { target: document.body, props: { board: 'b2', to: 'c9-0' } });
    await settle();
    expect(byId('asked').textContent?.trim()).toBe('B. Reviewer asks for a new reading: far below its neighbours');
    const named = [...document.querySelectorAll('ol button')].map((button) => button.getAttribute('aria-label'));
    expect(named[0]).toContain('new reading asked for');
    expect(named[1]).not.toContain('asked for');
    await call('set_volts', { board: 'b2', volts: 250 });
    await call('save_reading', { board: 'b2', slot: 'c9-0', indication: 'over_range' });
    await unmount(screen);
    screen = mount(RunScreen, { target: document.body, props: { board: 'b2', to: 'c9-1' } });
    await settle();
    expect(document.getElementById('asked')).toBeNull();
  });
});
