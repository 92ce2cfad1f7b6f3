import { FluentBundle, FluentResource } from '@fluent/bundle';
import { parse, type AST } from 'svelte/compiler';
import { describe, expect, it } from 'vitest';
import { catalogue, sources } from './sources';

const SPOKEN = ['aria-label', 'aria-description', 'title', 'alt', 'placeholder', 'label', 'name'];
const components = sources('.svelte');
const keys = [...catalogue().matchAll(/^([a-z][\w-]*) =/gm)].map((found) => found[1] ?? '');

/** Text a person would see or hear that stands in the component itself. */
function literals(source: string): string[] {
  const found: string[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) return node.forEach(visit);
    if (typeof node !== 'object' || node === null) return;
    const one = node as AST.SvelteNode;
    if (one.type === 'Text' && /\p{L}/u.test(one.data)) found.push(one.data.trim());
    if (one.type === 'Attribute') {
      const spoken = SPOKEN.includes(one.name);
      if (spoken || one.value === true) {
        if (spoken && Array.isArray(one.value)) one.value.forEach(visit);
        if (spoken) strings(one.value).forEach((text) => found.push(text));
      } else if (!Array.isArray(one.value)) visit(one.value);
      return;
    }
    for (const [key, value] of Object.entries(node)) if (key !== 'parent') visit(value);
  };
  visit(parse(source, { modern: true }).fragment);
  return found;
}

/** String literals given to a spoken attribute outside a call of `t`. */
function strings(value: unknown): string[] {
  const text = JSON.stringify(value, (key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && (inner as { type?: string }).type === 'CallExpression' ? undefined : key === 'parent' ? undefined : inner,
  );
  return [...text.matchAll(/"type":"Literal"[^}]*?"value":"([^"]*\p{L}[^"]*)"/gu)].map((found) => found[1] ?? '');
}

describe('the words', () => {
  it('has components to look at', () => {
    expect(components.length).toBeGreaterThan(15);
    expect(literals('<p>Hello</p>')).toEqual(['Hello']);
    expect(literals('<b aria-label="Hello"></b>')).toEqual(['Hello']);
    expect(literals('<b aria-label={t("hello")} class="quiet"></b>')).toEqual([]);
  });

  it.each(components)('%s says nothing that is not from the catalogue', (path, source) => {
    // An icon's name is its drawing, never spoken.
    const spoken = path === 'parts/Icon.svelte' ? [] : literals(source.replace(/<Icon name="[^"]*"/g, '<Icon'));
    expect(spoken).toEqual([]);
  });

  it('asks only for words the catalogue has', () => {
    const asked = sources('.svelte', '.ts').flatMap(([path, source]) =>
      [...source.matchAll(/\bt\(\s*'([\w-]+)'/g)].map((found) => [path, found[1] ?? ''] as const),
    );
    expect(asked.filter(([, key]) => !keys.includes(key))).toEqual([]);
  });

  it('keeps no word that nothing asks for', () => {
    const everything = sources('.svelte', '.ts').map(([, source]) => source).join('\n');
    const stems = [...everything.matchAll(/`([\w-]+-)\$\{/g)].map((found) => found[1] ?? '');
    const unused = keys.filter((key) => !everything.includes(`'${key}'`) && !stems.some((stem) => key.startsWith(stem)));
    expect(unused).toEqual([]);
  });

  it('parses as one catalogue', () => {
    expect(new FluentBundle('en').addResource(new FluentResource(catalogue()))).toEqual([]);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('never says safe, pass, OK or compliant', () => {
    // What a tester shows beyond the truth is its error, a word of the trade.
    const spoken = catalogue().replace(/^(column-error|plot-magnified) = .*$/gm, '');
    expect(spoken).not.toMatch(/\b(safe|safely|unsafe|pass(ed|es)?|ok|okay|compliant|fails?|failure|invalid|errors?|please|sorry|oops|forbidden|forgot|illegal|warning)\b/i);
  });
});
