import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
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

afterEach(() => unmount(screen));

describe('what is shown of a job', () => {
  it('is what to look at first, and each filter says how many it shows', () => {
    const said = ['look', 'not-tested', 'all'].map((name) => filter(name).textContent?.trim());
    expect(said).toEqual(['To look at (4)', 'Not tested (1)', 'All (96)']);
    expect(filter('look').getAttribute('aria-pressed')).toBe('true');
    expect(places()).toHaveLength(4);
    expect(document.querySelector('table')).toBeNull();
  });

  it('can be the pairs that were not tested', async () => {
    filter('not-tested').click();
    await settle();
    expect(places()).toEqual(['DB-2 · 7 Compressor · L1–PE']);
  });

  it('can be every board at a glance', async () => {
    filter('all').click();
    await settle();
    expect(document.querySelector('table')).not.toBeNull();
    expect(places()).toEqual([]);
  });
});
