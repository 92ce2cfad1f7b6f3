import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { call, Refusal } from '../src/host';
import Trouble from '../src/parts/Trouble.svelte';
import { useCatalogue } from '../src/words';

let shown: ReturnType<typeof mount> | undefined;

async function turns(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

async function show(code: string): Promise<void> {
  const trouble = new Refusal({ code, words: 'The record does not read as it was written', complaints: [], detail: null });
  shown = mount(Trouble, { target: document.body, props: { trouble } });
  await turns();
}

const button = (words: string) => [...document.querySelectorAll('button')].find((it) => it.textContent?.trim() === words);

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', { locale: null });
  useCatalogue(locale, ftl);
});

afterEach(async () => {
  if (shown) await unmount(shown);
});

describe('a damaged record', () => {
  it('has a way on wherever it is told of', async () => {
    await show('record_damaged');
    button('Set the damaged record aside')?.click();
    await turns();
    expect(document.body.textContent).toContain('Nothing of it was deleted');
    expect(document.body.textContent).toContain('412 entries of it are as they were written');
    expect(button('Go on')).toBeDefined();
    expect(document.body.textContent, 'what is over alarms nobody').not.toContain('does not read');
  });

  it('is no other trouble', async () => {
    await show('storage');
    expect(button('Set the damaged record aside')).toBeUndefined();
  });
});
