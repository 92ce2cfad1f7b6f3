import type { WrittenFile } from './generated/operations';

/** The system's way to send files on: mail, a message, a file store, a device nearby. Web views of some systems have none. */
type Sharing = Pick<Navigator, 'share' | 'canShare'>;

const sharing = (): Sharing | undefined => {
  const { share, canShare } = navigator as Partial<Navigator>;
  // Both are the navigator's own methods.
  return share && canShare ? { share: share.bind(navigator), canShare: canShare.bind(navigator) } : undefined;
};

/** Whether a file may be sent on by the system, asked with an empty one of a kind that every system knows. */
export function canShare(): boolean {
  return sharing()?.canShare({ files: [new File([], 'a.pdf', { type: 'application/pdf' })] }) ?? false;
}

/** Offers files to the system; says whether it took them. A person who thinks better of it was asked, and that is all. */
export async function share(files: WrittenFile[]): Promise<boolean> {
  try {
    await sharing()?.share({ files: files.map(fileOf) });
    return true;
  } catch (refused) {
    return refused instanceof DOMException && refused.name === 'AbortError';
  }
}

/** A written file as the browser knows files. */
export function fileOf({ name, media_type, base64 }: WrittenFile): File {
  const bytes = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
  return new File([bytes], name, { type: media_type });
}
