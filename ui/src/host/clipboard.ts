/** Puts text on the clipboard; says whether it went there. A web view may refuse, or not have one. */
export async function copyText(text: string): Promise<boolean> {
  const clipboard = (navigator as Partial<Navigator>).clipboard;
  if (!clipboard) return false;
  try {
    await clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
