import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import * as data from '../fake/data';
import * as door from '../fake/door';
import { answer } from '../fake/host';
import { call } from '../src/host';
import LookScreen from '../src/screens/look/LookScreen.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;

async function settle(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

const filter = (name: string): HTMLElement => {
  const found = document.getElementById(`filter-${name}`);
  if (!found) throw new Error(`no filter ${name}`);
  return found;
};
const places = () => [...document.querySelectorAll('#look-items .place')].map((place) => place.textContent?.trim());

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  screen = mount(LookScreen, { target: document.body, props: { job: 'j1' } });
  await settle();
});

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
});

describe('what is shown of a job', () => {
  it('is what to look at first, and each filter says how many it shows', () => {
    const said = ['look', 'not-tested', 'accepted', 'all'].map((name) => filter(name).textContent?.trim());
    expect(said).toEqual(['To look at (4)', 'Not tested (1)', 'Accepted (1)', 'All (96)']);
    expect(filter('look').getAttribute('aria-pressed')).toBe('true');
    expect(places()).toHaveLength(4);
    expect(document.querySelector('table')).toBeNull();
  });

  it('can be the pairs that were not tested', async () => {
    filter('not-tested').click();
    await settle();
    expect(places()).toEqual(['DB-2 · 7 Compressor · L1–PE']);
  });

  it('can be what was accepted, with who, when and why', async () => {
    filter('accepted').click();
    await settle();
    expect(places()).toEqual(['DB-2 · 2 Lights, workshop · L–PE']);
    expect(document.getElementById('look-items')?.textContent).toContain('Accepted by B. Reviewer (25 Nov 2026, 16:05): an old heating cable');
  });

  it('says of an item that a new reading is asked for', () => {
    expect(document.getElementById('look-items')?.textContent).toContain('B. Reviewer asks for a new reading: far below its neighbours');
  });

  it('can be every board at a glance', async () => {
    filter('all').click();
    await settle();
    expect(document.querySelector('table')).not.toBeNull();
    expect(places()).toEqual([]);
  });
});

describe('what a reviewer does', () => {
  const byId = (id: string): HTMLElement => {
    const found = document.getElementById(id);
    if (!found) throw new Error(`nothing has the id ${id}`);
    return found;
  };
  const rows = () => [...document.querySelectorAll<HTMLElement>('#look-items li > button')];
  const step = () => document.querySelector('.steps span')?.textContent;

  async function press(id: string): Promise<void> {
    byId(id).click();
    await settle();
  }

  async function say(reason: string): Promise<void> {
    const field = byId('act-reason') as HTMLInputElement;
    field.value = reason;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.form?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }));
    await settle();
    await settle();
  }

  it('is three buttons on the sheet of a marked reading, which says where it comes from', async () => {
    rows()[1]?.click();
    await settle();
    expect(['act-accept', 'act-ask', 'act-own'].map((id) => byId(id).textContent?.trim())).toEqual([
      'Accept with a reason',
      'Ask for a new reading',
      'Add my own reading',
    ]);
    const told = document.querySelector('dialog')?.textContent ?? '';
    for (const part of ['0.98 MΩ', 'Below 1.0 MΩ', 'A. Recorder', 'serial 1001, proved to 3 Mar 2027', '10:42', 'Replaced: repaired']) expect(told).toContain(part);
  });

  it('replaces and withdraws only what the person here read, and says what to do of the rest', async () => {
    const words = () => document.querySelector('dialog')?.textContent ?? '';
    rows()[1]?.click();
    await settle();
    expect(words()).toContain('Replace or withdraw');
    expect(document.getElementById('other-acts-not')).toBeNull();
    const current = data.origin.current.map((one) => ({ ...one, changeable: false }));
    vi.spyOn(door, 'knock').mockImplementation(async (operation, input) => (operation === 'origin' ? { ...data.origin, current } : answer(operation, input)));
    await press('look-after');
    await settle();
    expect(words()).not.toContain('Replace or withdraw');
    expect(byId('other-acts-not').textContent).toContain('Ask for a new one, or add your own');
  });

  it('asks for a reason where the focus goes, and moves on to the next with an undo line', async () => {
    const knocks = vi.spyOn(door, 'knock');
    rows()[1]?.click();
    await settle();
    expect(step()).toBe('2 of 4');
    await press('act-accept');
    expect(document.activeElement?.id).toBe('act-reason');
    await say('an old heating cable');
    expect(knocks.mock.calls.find(([operation]) => operation === 'accept')?.[1]).toEqual({ board: 'b2', slot: 'c4-1', reason: 'an old heating cable' });
    expect(step()).toBe('3 of 4');
    expect(document.querySelector('dialog .line')?.textContent).toContain('Accepted: DB-2 · 4 Sockets, east wall · L–PE');
    await press('undo');
    expect(knocks.mock.calls.find(([operation]) => operation === 'undo')?.[1]).toEqual({ token: 'u3' });
  });

  it('closes after the last one, and the undo line stands on the screen', async () => {
    rows()[3]?.click();
    await settle();
    await press('act-ask');
    await say('door is open now');
    expect(document.querySelector('dialog')).toBeNull();
    expect(document.querySelector('.line')?.textContent).toContain('Asked for a new reading');
  });

  it('goes back to the button from a reason that is not given', async () => {
    rows()[1]?.click();
    await settle();
    await press('act-ask');
    await press('act-stop');
    await settle();
    expect(document.activeElement?.id).toBe('act-ask');
  });

  it('leads to the pair to add an own reading', async () => {
    rows()[1]?.click();
    await settle();
    await press('act-own');
    expect(location.hash).toBe('#/run/b2/c4-1');
    location.hash = '';
  });
});
