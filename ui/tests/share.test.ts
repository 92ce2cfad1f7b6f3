import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { call } from '../src/host';
import WrittenLine from '../src/parts/WrittenLine.svelte';
import { base64Of } from '../src/host/file';
import { useCatalogue } from '../src/words';

const written = { files: ['/papers/one.pdf', '/papers/two.pdf'], words: 'Schedule written' };
let line: ReturnType<typeof mount>;

async function shown(): Promise<HTMLButtonElement | null> {
  line = mount(WrittenLine, { target: document.body, props: { written } });
  await tick();
  return document.querySelector('#written-path-send');
}

async function send(button: HTMLButtonElement | null): Promise<void> {
  expect(button).not.toBeNull();
  button?.click();
  for (let turn = 0; turn < 40; turn += 1) await Promise.resolve();
  flushSync();
  expect(button?.disabled).toBe(false);
}

const system = (share: (data: ShareData) => Promise<void>) => Object.assign(navigator, { canShare: () => true, share });

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
});

afterEach(async () => {
  await unmount(line);
  Reflect.deleteProperty(navigator, 'share');
  Reflect.deleteProperty(navigator, 'canShare');
});

describe('a written file', () => {
  it('names every file, and offers nothing the system cannot do', async () => {
    expect(await shown()).toBeNull();
    expect([...document.querySelectorAll('code')].map((code) => code.textContent)).toEqual(written.files);
  });

  it('goes to the system whole, each under its name', async () => {
    const taken = vi.fn<(data: ShareData) => Promise<void>>(() => Promise.resolve());
    system(taken);
    await send(await shown());
    const files = taken.mock.calls[0]?.[0].files ?? [];
    expect(files.map((file) => file.name)).toEqual(['one.pdf', 'two.pdf']);
    expect(files.map((file) => file.type)).toEqual(['application/pdf', 'application/pdf']);
    expect(await Promise.all(files.map(base64Of))).toEqual(['JVBERg==', 'JVBERg==']);
    expect(document.body.textContent).not.toContain('did not take it');
  });

  it('says nothing of a person who thinks better of it', async () => {
    system(() => Promise.reject(new DOMException('', 'AbortError')));
    await send(await shown());
    expect(document.body.textContent).not.toContain('did not take it');
  });

  it('says where the file is when the system refuses', async () => {
    system(() => Promise.reject(new DOMException('', 'NotAllowedError')));
    await send(await shown());
    expect(document.body.textContent).toContain('The system did not take it');
  });
});
