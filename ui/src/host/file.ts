/** What the first byte of a file tells: JSON begins with a brace, white space or a byte order mark; a bundle with none. */
export async function isJson(file: File): Promise<boolean> {
  const [first] = new Uint8Array(await file.slice(0, 1).arrayBuffer());
  return first === undefined || [0x7b, 0x5b, 0x20, 0x09, 0x0a, 0x0d, 0xef].includes(first);
}

/** A file's bytes as the door takes them. */
export function base64Of(file: File): Promise<string> {
  return new Promise((done, refused) => {
    const reader = new FileReader();
    reader.onload = () => {
      const [, base64 = ''] = String(reader.result).split(',');
      done(base64);
    };
    reader.onerror = () => refused(reader.error ?? new Error(file.name));
    reader.readAsDataURL(file);
  });
}
