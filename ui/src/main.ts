import { mount, unmount } from 'svelte';
import './style/index.css';
import App from './App.svelte';
import { call } from './host';
import { watch } from './came.svelte';
import { followBackButton } from './host/back';
import { fromHub, goOn } from './host/hub';
import { follow, parse, replace } from './route.svelte';
import LoginScreen from './screens/login/LoginScreen.svelte';
import { loadSettings } from './settings.svelte';
import { useCatalogue } from './words';

const target = document.getElementById('app');

async function start(): Promise<void> {
  const { locale, ftl } = await call('catalogue', { locale: null });
  useCatalogue(locale, ftl);
  const { screen, id } = parse(window.location.hash);
  const code = screen === 'first' ? id : null;
  if (fromHub() && (code !== null || !(await goOn()))) ask(code);
  else await open();
}

/** Asks who is there, and goes on from there. */
function ask(code: string | null): void {
  if (!target) return;
  const login = mount(LoginScreen, {
    target,
    props: {
      code,
      onin: () => {
        // The link was for once.
        if (code !== null) replace('#/jobs');
        void unmount(login);
        open().catch(report);
      },
    },
  });
}

async function open(): Promise<void> {
  await loadSettings();
  await follow(report);
  await followBackButton();
  if (target) mount(App, { target });
  watch();
}

/** Where nothing can be drawn yet, the words alone. */
function report(failure: unknown): void {
  if (target) target.textContent = failure instanceof Error ? failure.message : String(failure);
}

start().catch(report);
