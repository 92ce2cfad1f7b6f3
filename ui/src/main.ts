import { mount } from 'svelte';
import './style/index.css';
import App from './App.svelte';
import { call } from './host';
import { followBackButton } from './host/back';
import { follow } from './route.svelte';
import { loadSettings } from './settings.svelte';
import { useCatalogue } from './words';

const target = document.getElementById('app');

async function start(): Promise<void> {
  const { locale, ftl } = await call('catalogue', { locale: null });
  useCatalogue(locale, ftl);
  await loadSettings();
  await follow(report);
  await followBackButton();
  if (target) mount(App, { target });
}

/** Where nothing can be drawn yet, the words alone. */
function report(failure: unknown): void {
  if (target) target.textContent = failure instanceof Error ? failure.message : String(failure);
}

start().catch(report);
