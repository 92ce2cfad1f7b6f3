import { mount, unmount } from 'svelte';
import './style/index.css';
import App from './App.svelte';
import { call } from './host';
import { watch } from './came.svelte';
import { followBackButton } from './host/back';
import { fromHub, goOn, loggedIn, whenEnded } from './host/hub';
import { follow, parse, replace } from './route.svelte';
import LoginAgain from './screens/login/LoginAgain.svelte';
import LoginScreen from './screens/login/LoginScreen.svelte';
import { loadSettings } from './settings.svelte';
import { useCatalogue } from './words';

const target = document.getElementById('app');

async function start(): Promise<void> {
  const { locale, ftl } = await call('catalogue', { locale: null });
  useCatalogue(locale, ftl);
  const { screen, id, at } = parse(window.location.hash);
  const link = screen === 'first' ? { code: id, name: at ?? '' } : null;
  if (fromHub() && (link || !(await goOn()))) ask(link);
  else await open();
}

/** Asks who is there, and goes on from there. */
function ask(link: { code: string; name: string } | null): void {
  if (!target) return;
  const login = mount(LoginScreen, {
    target,
    props: {
      link,
      onin: () => {
        // The link was for once.
        if (link) replace('#/jobs');
        void unmount(login);
        open().catch(report);
      },
    },
  });
}

/** Asks once more, over what is on the screen. */
function askAgain(): Promise<void> {
  return new Promise((resolve) => {
    const onin = () => {
      void unmount(again);
      resolve();
    };
    const again = mount(LoginAgain, { target: document.body, props: { name: loggedIn()?.name ?? '', onin } });
  });
}

async function open(): Promise<void> {
  whenEnded(askAgain);
  if (loggedIn()) {
    // The words before the login were in the hub's language.
    const { locale, ftl } = await call('catalogue', { locale: null });
    useCatalogue(locale, ftl);
  }
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
