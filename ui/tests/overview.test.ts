import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import * as door from '../fake/door';
import { answer } from '../fake/host';
import { call } from '../src/host';
import OverviewScreen from '../src/screens/overview/OverviewScreen.svelte';
import { remembered } from '../src/screens/overview/remembered.svelte';
import { useCatalogue } from '../src/words';

let screen: ReturnType<typeof mount>;

async function turns(): Promise<void> {
  for (let turn = 0; turn < 40; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

async function open(): Promise<void> {
  screen = mount(OverviewScreen, { target: document.body });
  await turns();
}

async function press(key: string, init: KeyboardEventInit = {}): Promise<boolean> {
  const on = document.activeElement ?? document.body;
  const kept = on.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...init }));
  await turns();
  return kept;
}

const byId = (id: string): HTMLElement => {
  const found = document.getElementById(id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};
const rows = () => [...document.querySelectorAll<HTMLElement>('#overview-jobs [data-job]')];
const names = () => rows().map((row) => row.querySelector('.name a')?.textContent);
const boxes = () => rows().map((row) => row.querySelector<HTMLInputElement>('input'));
const status = () => byId('schedules-status').textContent?.trim();
const outcomes = () => [...document.querySelectorAll('#schedules li')].map((line) => line.textContent?.trim().replaceAll(/\s+/g, ' '));

async function click(id: string): Promise<void> {
  byId(id).click();
  await turns();
}

beforeEach(async () => {
  const { locale, ftl } = await call('catalogue', {});
  useCatalogue(locale, ftl);
  Object.assign(remembered, { shown: 'all', job: null });
  window.location.hash = '#/overview';
  await open();
});

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
});

describe('many jobs at a glance', () => {
  it('says of each what it lacks, in the words of the core', () => {
    expect(names()).toEqual(['Harbour workshop', 'School annexe', 'Boiler house', 'Quay lighting']);
    const [harbour, annexe] = rows().map((row) => row.textContent?.replaceAll(/\s+/g, ' '));
    for (const words of ['96 of 300', 'block', '12 required pairs have no reading', '204 to do', '6 lapsed', '1 of 3 resolved', 'Not signed', 'Pier 4, invented']) {
      expect(harbour).toContain(words);
    }
    expect(annexe).toContain('Nothing');
    expect(annexe).toContain('Signed as No. 1 by B. Reviewer');
  });

  it('says what came since a sign-off before who signed, and how many are not proved before why', () => {
    const cells = (at: number) => [...(rows()[at]?.querySelectorAll('td') ?? [])].map((cell) => cell.textContent?.trim().replaceAll(/\s+/g, ' ') ?? '');
    expect(cells(3).at(-1)).toMatch(/^look 1 entry after sign-off .*Signed as No. 2/);
    expect(cells(0)[6]).toMatch(/^9 stop 1 barred/);
  });

  it('is one Tab stop, walked through by arrows', async () => {
    const cells = () => rows().flatMap((row) => [...row.querySelectorAll<HTMLElement>('a, button, input')]);
    expect(cells().filter((cell) => cell.tabIndex === 0)).toHaveLength(1);
    byId('open-j1').focus();
    await press('ArrowDown');
    expect(document.activeElement?.id).toBe('open-j2');
    await press('Home');
    expect(document.activeElement).toBe(boxes()[1]);
    await press('End', { ctrlKey: true });
    expect(rows().at(-1)?.contains(document.activeElement)).toBe(true);
  });

  it('is filtered, each filter saying how many it shows', async () => {
    const said = ['all', 'lacking', 'unsigned', 'unproved'].map((id) => byId(`filter-${id}`).textContent?.trim());
    expect(said).toEqual(['All (4)', 'Lacks something (2)', 'Not signed (2)', 'Tester not proved (2)']);
    await click('filter-lacking');
    expect(names()).toEqual(['Harbour workshop', 'Boiler house']);
    await click('filter-unsigned');
    expect(names()).toEqual(['Harbour workshop', 'Boiler house']);
    await click('filter-unproved');
    expect(names()).toEqual(['Harbour workshop', 'Quay lighting']);
  });

  it('has the testers due first, and the recalls', () => {
    const testers = [...document.querySelectorAll('#overview-testers tbody tr')].map((row) => row.querySelector('a')?.getAttribute('href'));
    expect(testers).toEqual(['#/tester/t3', '#/tester/t2', '#/tester/t1']);
    expect(byId('overview-recalls').textContent).toContain('1 of 9 resolved, in 2 jobs');
  });
});

describe('its keys', () => {
  it('go where they say, from any control of a row, and from nowhere else', async () => {
    byId('filter-all').focus();
    for (const key of ['l', 's', 'u']) await press(key);
    expect(window.location.hash).toBe('#/overview');
    boxes()[2]?.focus();
    await press('l');
    expect(window.location.hash).toBe('#/look/j3');
    await press('S');
    expect(window.location.hash).toBe('#/schedule/j3');
    await press('Enter');
    expect(window.location.hash).toBe('#/job/j3');
  });

  it('leave a key with Ctrl or Alt to the browser', async () => {
    byId('open-j3').focus();
    await press('l', { ctrlKey: true });
    await press('s', { altKey: true });
    expect(window.location.hash).toBe('#/overview');
    expect(await press('Enter'), 'a link is followed by itself').toBe(true);
  });

  it('choose a job, and show what is not proved of one', async () => {
    byId('open-j1').focus();
    await press(' ');
    expect(boxes().map((box) => box?.checked)).toEqual([true, false, false, false]);
    await press(' ');
    expect(boxes()[0]?.checked).toBe(false);
    await press('u');
    const sheet = byId('unproved');
    expect(sheet.textContent).toContain('Tester B: verification lapsed on 20 Sep 2026');
    expect(sheet.querySelector('a')?.getAttribute('href')).toBe('#/recall/t3/j1');
    byId('open-j1').focus();
  });

  it('show nothing of a job whose testers were all proved', async () => {
    byId('open-j2').focus();
    await press('u');
    expect(document.getElementById('unproved')).toBeNull();
  });

  it('are listed by ?', async () => {
    byId('open-j1').focus();
    await press('?');
    for (const words of ['L: what to look at', 'S: the schedule', 'Space: choose']) expect(byId('keys').textContent).toContain(words);
  });

  it('go on where the person was when they come back', async () => {
    await click('filter-lacking');
    boxes()[1]?.focus();
    await press('Enter');
    await unmount(screen);
    await open();
    expect(names()).toEqual(['Harbour workshop', 'Boiler house']);
    expect(document.activeElement?.id).toBe('open-j3');
  });
});

describe('schedules of many jobs', () => {
  const choose = async (...ids: number[]) => {
    for (const at of ids) boxes()[at]?.click();
    await turns();
  };

  it('are written one after the other, and had through the browser', async () => {
    expect((byId('schedules-write') as HTMLButtonElement).disabled).toBe(true);
    await choose(0, 1);
    expect(byId('schedules-write').textContent?.trim()).toBe('Write the schedules of 2 jobs');
    const asked = vi.spyOn(door, 'knock');
    await click('schedules-write');
    const written = asked.mock.calls.filter(([operation]) => operation === 'make_schedule').map(([, input]) => input);
    expect(written).toEqual([
      { job: 'j1', format: 'pdf', as_signed: null },
      { job: 'j2', format: 'pdf', as_signed: null },
    ]);
    expect(status()).toBe('2 of 2 written');
    expect(document.getElementById('schedules-files-save')).not.toBeNull();
  });

  it('one that fails is told beside its job and stops no other', async () => {
    await choose(0, 1, 2);
    vi.spyOn(door, 'knock').mockImplementation(async (operation, input) => {
      if (operation === 'make_schedule' && (input as { job: string }).job === 'j2') throw { code: 'file_not_written', words: 'The disk is full', complaints: [], detail: null };
      return structuredClone(answer(operation, input));
    });
    await click('schedules-write');
    expect(outcomes()).toEqual(['Harbour workshop The schedule was written', 'School annexe The disk is full', 'Boiler house The schedule was written']);
    expect(status()).toBe('2 of 3 written, 1 could not be');
  });

  it('say which is written, and stop between two', async () => {
    await click('choose-all');
    const waiting: (() => void)[] = [];
    vi.spyOn(door, 'knock').mockImplementation(async (operation, input) => {
      if (operation === 'make_schedule') await new Promise<void>((done) => waiting.push(done));
      return structuredClone(answer(operation, input));
    });
    await click('schedules-write');
    expect(status()).toBe('Writing 1 of 4: Harbour workshop');
    waiting.shift()?.();
    await turns();
    expect(status()).toBe('Writing 2 of 4: School annexe');
    await click('schedules-stop');
    expect(status()).toBe('Stops after 2 of 4: School annexe');
    waiting.shift()?.();
    await turns();
    expect(status()).toBe('2 of 4 written');
    expect(outcomes().slice(1)).toEqual(['School annexe The schedule was written', 'Boiler house Not written yet', 'Quay lighting Not written yet']);
    expect(waiting).toHaveLength(0);
  });

  it('are those of jobs that are shown', async () => {
    await choose(0, 1);
    await click('filter-lacking');
    expect(byId('schedules-write').textContent?.trim()).toBe('Write the schedule of 1 job');
  });
});
