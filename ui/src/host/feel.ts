/** What the hand feels: one light, two, one heavy, one long. Never the only sign: many devices cannot. */
const PATTERNS = { accepted: [12], look: [15, 60, 15], refused: [45], moved: [120] } as const;

export function feel(what: keyof typeof PATTERNS): void {
  // WebKit has no `vibrate`; it is optional there whatever the type says.
  (navigator as Partial<Navigator>).vibrate?.([...PATTERNS[what]]);
}
