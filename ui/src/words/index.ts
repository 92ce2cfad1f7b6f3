import { FluentBundle, FluentResource, type FluentVariable } from '@fluent/bundle';

let bundle = new FluentBundle('en');

/** Takes the catalogue the core serves. Isolation marks are off: they would land inside accessible names and copied text. */
export function useCatalogue(locale: string, source: string): void {
  bundle = new FluentBundle(locale, { useIsolating: false });
  for (const error of bundle.addResource(new FluentResource(source))) throw error;
  document.documentElement.lang = locale;
}

/** The words of a label. A key that is not in the catalogue shows itself, so that it is seen and found. */
export function t(key: string, values?: Record<string, FluentVariable>): string {
  const message = bundle.getMessage(key);
  if (!message?.value) return key;
  return bundle.formatPattern(message.value, values ?? null);
}
