import { readFileSync } from 'node:fs';
import * as fontkit from 'fontkit';
import { describe, expect, it } from 'vitest';
import { catalogue } from './sources';

/** What quantities are made of, beside the catalogue: signs, units, the spaces of formatted numbers, four languages' letters. */
const QUANTITIES = '0123456789.,<>≤≥±×−–—·%ΩkMGTVmA µ\u00a0\u2007\u2009\u202fąćęłńóśźżÄÖÜßàâçéèêëîïôùûœ„“”«»’';

describe.each(['Regular', 'SemiBold'])('the shipped face, %s', (weight) => {
  const font = fontkit.create(readFileSync(`src/style/fonts/IBMPlexSans-${weight}.woff2`));

  it('has every character of the catalogue and of quantities', () => {
    if (!('hasGlyphForCodePoint' in font)) throw new Error('a collection, not a face');
    const needed = new Set(QUANTITIES + catalogue().replace(/^#.*$/gm, '').replace(/\s/g, ' '));
    const lacking = [...needed].filter((one) => !font.hasGlyphForCodePoint(one.codePointAt(0) ?? 0));
    expect(lacking).toEqual([]);
  });

  it('sets every digit equally wide', () => {
    if (!('glyphForCodePoint' in font)) throw new Error('a collection, not a face');
    const widths = [...'0123456789'].map((digit) => font.glyphForCodePoint(digit.charCodeAt(0)).advanceWidth);
    expect(new Set(widths).size).toBe(1);
  });
});
