import type { BenchKey } from '../../host';
import { pressOf } from '../../parts/pad/pad';
import type { Bench } from './bench.svelte';

/** The keys of a real keyboard that end digits, where the step has such a key. */
const SAVING: Record<string, BenchKey[]> = { k: ['k'], m: ['m', 'milli_a'], g: ['g'], v: ['v'], u: ['micro_a'], l: ['line_positive'], e: ['earth_positive'] };

/** The key of a real keyboard for a saving key, to show on it. */
export function shortcutOf(key: BenchKey): string | undefined {
  const found = Object.entries(SAVING).find(([, keys]) => keys.includes(key));
  return found?.[0].toUpperCase();
}

/** The whole run by a real keyboard. Tab, and Enter or space on a focused button, keep their own meaning. */
export function hardwareKeys(bench: Bench, event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey) {
    if (event.key.toLowerCase() === 'z') act(event, () => void bench.undo());
    return;
  }
  if (event.altKey || event.repeat || isTyping(event.target)) return;
  if (event.key === 'Enter') {
    const onControl = event.target instanceof Element && event.target.closest('button, a, select, summary');
    if (!onControl) act(event, () => bench.pressEnter());
    return;
  }
  const has = (key: BenchKey) => bench.view?.pad?.keys.some((one) => one.key === key);
  const saving = SAVING[event.key.toLowerCase()]?.find((key) => has(key));
  if (saving) return act(event, () => pressSaving(bench, saving));
  if (event.key.toLowerCase() === 'o' && bench.view?.pad?.over_range) return act(event, () => bench.overRange());
  const pressed = pressOf(event.key);
  if (pressed && pressed.key !== 'unit' && pressed.key !== 'over-range') act(event, () => bench.press(pressed));
}

export function pressSaving(bench: Bench, key: BenchKey): void {
  if (key === 'line_positive' || key === 'earth_positive') bench.polarity(key);
  else if (key === 'over_range') bench.overRange();
  else bench.save(key);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('input, textarea, select') !== null;
}

function act(event: KeyboardEvent, then: () => void): void {
  event.preventDefault();
  then();
}
