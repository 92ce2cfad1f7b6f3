import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { call } from '../src/host';
import SettleScreen from '../src/screens/settle/SettleScreen.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;

async function turns(): Promise<void> {
  for (let turn = 0; turn < 40; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

async function press(key: string, init: KeyboardEventInit = {}): Promise<void> {
  const on = document.activeElement ?? document.body;
  on.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...init }));
  await turns();
}

const said = (id: string) => document.getElementById(id)?.textContent?.trim();
const line = () => document.querySelector('[role=status] p')?.textContent;

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  screen = mount(SettleScreen, { target: document.body, props: { job: 'j1' } });
  await turns();
});

afterEach(async () => {
  while ((await call('settling', { job: 'j1' })).questions.length < 2) await call('undo', { token: '' });
  await unmount(screen);
});

describe('settling by keys alone', () => {
  it('chooses nothing beforehand', () => {
    expect(said('question-step')).toBe('To settle 1 of 2');
    expect(document.querySelectorAll('[aria-pressed=true], :checked, [aria-checked=true]')).toHaveLength(0);
    expect(document.activeElement?.id).toBe('screen-settle');
  });

  it('chooses by number, goes on by itself, and says when nothing is left', async () => {
    await press('2');
    expect(line()).toBe('Settled: > 999 MΩ');
    expect(said('question-step')).toBe('To settle 1 of 1');
    expect(document.activeElement?.id).toBe('question');
    await press('1');
    expect(said('settle-none')).toBe('Nothing to settle');
    expect(document.activeElement?.id).toBe('settle-none');
    expect(document.querySelector('.one a')?.getAttribute('href')).toBe('#/job/j1');
  });

  it('keeps both of two readings, and of nothing else', async () => {
    await press('b');
    expect(line()).toBe('Settled: all readings stay');
    await press('b');
    expect(said('question-step')).toBe('To settle 1 of 1');
  });

  it('puts one off without writing anything', async () => {
    await press('l');
    expect(said('question-step')).toBe('To settle 2 of 2');
    expect(said('question-asks')).toBe('Two names of one circuit');
    expect((await call('settling', { job: 'j1' })).questions).toHaveLength(2);
    await press('L');
    expect(said('question-step')).toBe('To settle 1 of 2');
  });

  it('takes settlings back, the last one first', async () => {
    await press('1');
    await press('1');
    await press('z', { ctrlKey: true });
    expect(said('question-asks')).toBe('Two names of one circuit');
    await press('z', { ctrlKey: true });
    expect(said('question-step')).toBe('To settle 1 of 2');
    expect(line()).toBe('Taken back');
    await press('z', { ctrlKey: true });
    expect(said('question-step')).toBe('To settle 1 of 2');
  });

  it('does nothing by a key that is held down, or with another one', async () => {
    await press('1', { repeat: true });
    await press('1', { altKey: true });
    await press('1', { ctrlKey: true });
    await press('3');
    expect(said('question-step')).toBe('To settle 1 of 2');
  });

  it('shows its keys, and nothing is chosen behind them', async () => {
    document.getElementById('question')?.focus();
    await press('?');
    const sheet = document.getElementById('keys');
    expect(sheet?.textContent).toContain('B: keep both');
    sheet?.querySelector('button')?.focus();
    await press('1');
    expect(said('question-step')).toBe('To settle 1 of 2');
  });
});
