import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrast, difference, parse, seen, VISIONS } from './colour';

const css = readFileSync('src/style/tokens.css', 'utf8').replace(/\/\*[^]*?\*\//g, '');

function block(selector: string): Record<string, string> {
  const body = css.split(`${selector} {`)[1]?.split('}')[0];
  if (!body) throw new Error(`no ${selector} in tokens.css`);
  return Object.fromEntries([...body.matchAll(/--([\w-]+):\s*([^;]+);/g)].map((found) => [found[1], found[2]]));
}

const light = block(':root');
const themes: Record<string, Record<string, string>> = {
  light,
  dark: { ...light, ...block(":root[data-theme='dark']") },
  sun: { ...light, ...block(":root[data-theme='sun']") },
};

describe.each(Object.entries(themes))('theme %s', (_name, token) => {
  const of = (name: string) => token[name] ?? '';

  it.each([
    ['text', 'ground'],
    ['text', 'surface'],
    ['text', 'key'],
    ['text', 'key-down'],
    ['quiet', 'ground'],
    ['quiet', 'surface'],
    ['action', 'ground'],
    ['action', 'surface'],
    ['on-action', 'action'],
    ['on-look', 'look'],
    ['on-stop', 'stop'],
  ])('%s on %s is read: 7 to 1', (text, ground) => {
    expect(contrast(of(text), of(ground))).toBeGreaterThanOrEqual(7);
  });

  it('the reading is read at 15 to 1', () => {
    expect(contrast(of('text'), of('ground'))).toBeGreaterThanOrEqual(15);
  });

  it.each([
    ['edge', 'ground'],
    ['edge', 'surface'],
    ['edge', 'key'],
    ['action', 'ground'],
    ['stop', 'ground'],
  ])('%s stands out from %s: 3 to 1', (edge, ground) => {
    expect(contrast(of(edge), of(ground))).toBeGreaterThanOrEqual(3);
  });

  it.each(VISIONS)('fills of signs are told apart by %s', (vision) => {
    const fills = ['ground', 'look', 'stop'].map((name) => seen(of(name), vision));
    for (const [at, a] of fills.entries()) {
      for (const b of fills.slice(at + 1)) expect(difference(a, b)).toBeGreaterThanOrEqual(20);
    }
  });
});

describe('the arithmetic', () => {
  it('knows black on white', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    expect(difference(parse('#000000'), parse('#ffffff'))).toBeCloseTo(100, 1);
  });
});
