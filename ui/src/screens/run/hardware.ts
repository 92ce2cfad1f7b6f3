import { pressOf } from '../../parts/pad/pad';
import type { Run } from './run.svelte';

/** The whole loop by a real keyboard. Tab, and Enter or space on a focused button, keep their own meaning. */
export function hardwareKeys(run: Run, event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey) {
    if (event.key.toLowerCase() === 'z') act(event, () => void run.undo());
    return;
  }
  if (event.altKey || event.repeat) return;
  if (event.key === 'Enter') {
    const onControl = event.target instanceof Element && event.target.closest('button, a');
    if (!onControl) act(event, () => run.pressEnter());
    return;
  }
  if (event.key === 't' && run.view?.ask_volts && !run.testerFirst) {
    const volts = run.view.ask_volts.volts;
    return act(event, () => void run.setVolts(volts));
  }
  const pressed = pressOf(event.key);
  if (pressed) act(event, () => run.press(pressed));
}

function act(event: KeyboardEvent, then: () => void): void {
  event.preventDefault();
  then();
}
