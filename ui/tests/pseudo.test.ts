import { flushSync, mount, tick, unmount } from 'svelte';
import { afterEach, describe, expect, it, vi } from 'vitest';
import App from '../src/App.svelte';
import * as door from '../fake/door';
import { parse, route } from '../src/route.svelte';
import { useCatalogue } from '../src/words';
import { catalogue } from './sources';

/** Every message in brackets: what stands on screen without them is not from the catalogue. */
const pseudo = catalogue().replace(/^((?:[a-z][\w-]*|\s+\*?\[\w+\])\s*=?\s+)(\S.*)$/gm, (line, head: string, text: string) =>
  text.startsWith('{ $count ->') ? line : `${head}«${text}»`,
);

/** Every string the host has told so far: those come from the core, ready to show. */
const told = new Set<string>();
const gather = (value: unknown): void => {
  if (typeof value === 'string') {
    told.add(value);
    // A place is set in two pieces, so that its pair does not break.
    const cut = value.lastIndexOf(' ') + 1;
    told.add(value.slice(0, cut).trim()).add(value.slice(cut));
  }
  else if (typeof value === 'object' && value !== null) Object.values(value).forEach(gather);
};

async function settle(): Promise<void> {
  for (let turn = 0; turn < 30; turn += 1) await Promise.resolve();
  await tick();
  flushSync();
}

/** What a person sees or hears of the page, bit by bit. */
function said(): string[] {
  const bits: string[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (node instanceof Element) {
      for (const name of ['aria-label', 'alt', 'title', 'placeholder']) bits.push(node.getAttribute(name) ?? '');
    } else bits.push(node.textContent ?? '');
  }
  return bits.map((bit) => bit.trim()).filter((bit) => /\p{L}/u.test(bit));
}

/** Each screen, and what can be opened on it. */
const SCREENS: [hash: string, opened?: string][] = [
  ['#/jobs'],
  ['#/jobs', '#start-job'],
  ['#/job/j1'],
  ['#/job/j1', '#job-rules'],
  ['#/job/j1', '#job-names'],
  ['#/circuits/b2'],
  ['#/circuits/b2', '#circuit-new'],
  ['#/circuits/b2', '#circuits-bulk'],
  ['#/circuits/b2', '#circuits-import'],
  ['#/circuits/b2', '#circuits-copy'],
  ['#/circuits/b2', '#board-edit'],
  ['#/run/fresh'],
  ['#/run/fresh', '.tester'],
  ['#/run/fresh', '.volts'],
  ['#/run/fresh', '.more'],
  ['#/testers/j1'],
  ['#/testers/j1', '#tester-new'],
  ['#/tester/t1/j1'],
  ['#/tester/t1/j1', '#verification-new'],
  ['#/references'],
  ['#/references', '#reference-new'],
  ['#/benches/t1/j1'],
  ['#/bench/b1/j1'],
  ['#/bench/b1/j1', '.more'],
  ['#/bench/b1/j1', '#bench-steps'],
  ['#/bench-result/b1/j1'],
  ['#/drift/t1/j1'],
  ['#/compare'],
  ['#/look/j1'],
  ['#/look/j1', '#look-items button'],
  ['#/correct/j1'],
  ['#/signoff/j1'],
  ['#/signoff/j1', '#signed button'],
  ['#/schedule/j1'],
  ['#/handover/j1'],
  ['#/cautions/j1'],
  ['#/nowhere'],
];

let screen: ReturnType<typeof mount>;

afterEach(async () => {
  await unmount(screen);
  vi.restoreAllMocks();
});

describe('in a language of brackets', () => {
  it.each(SCREENS)('%s %s says nothing but words of the catalogue and of the core', async (hash, opened) => {
    const real = door.knock;
    vi.spyOn(door, 'knock').mockImplementation(async (operation, input) => {
      const answer = await real(operation, input);
      gather(answer);
      return answer;
    });
    useCatalogue('en', pseudo);
    Object.assign(route, parse(hash));
    screen = mount(App, { target: document.body });
    await settle();
    if (opened) {
      const control = document.querySelector<HTMLElement>(opened);
      if (!control) throw new Error(`${hash} has no ${opened}`);
      control.click();
      await settle();
    }
    const bits = said();
    expect(bits.length).toBeGreaterThan(3);
    expect(bits.filter((bit) => !/^«[^]*»$/.test(bit) && !told.has(bit))).toEqual([]);
  });
});
