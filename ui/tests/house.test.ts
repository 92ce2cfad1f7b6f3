import { describe, expect, it } from 'vitest';
import { sources } from './sources';

const all = sources('.ts', '.svelte').filter(([path]) => !path.includes('generated'));
const offending = (rule: RegExp, except = /^$/) => all.filter(([path, source]) => !except.test(path) && rule.test(source)).map(([path]) => path);

describe('the house rules of the screens', () => {
  it('only the host folder knows what carries a call', () => {
    expect(offending(/@tauri-apps|#door/, /^host\//)).toEqual([]);
  });

  it('nothing that matters is kept by the web view', () => {
    expect(offending(/localStorage|sessionStorage|indexedDB|document\.cookie/)).toEqual([]);
  });

  it('quantities are not formatted, and nothing is printed, by the web view', () => {
    expect(offending(/\bIntl\b|toLocaleString|toFixed|parseFloat|window\.print/)).toEqual([]);
  });

  it('no markup is made from text', () => {
    expect(offending(/\{@html|innerHTML/)).toEqual([]);
  });

  it('the invented host is no part of the product', () => {
    expect(offending(/fake\//)).toEqual([]);
  });

  it('a file stays one that can be read at once', () => {
    expect(all.filter(([, source]) => source.split('\n').length > 400).map(([path]) => path)).toEqual([]);
  });
});
