/** A script of its own at the head of the parts in the one file `sheaf.html`. Each
 * piece of a part is followed by a call of `take`, which moves its bytes out while
 * the parser reads on: the text of all pieces is four times as large as the parts,
 * and what a browser has once taken for it, it keeps. */

declare global {
  var sheafTaker: {
    /** Takes the piece before the script that calls. */
    take(): void;
    /** The bytes of a part, once. Throws where some are missing. */
    give(name: string): ArrayBuffer;
  };
}

interface Taken { bytes: Uint8Array<ArrayBuffer>; at: number }
/** Newer than the language that the rest is written in. */
type Reads = Uint8Array & { setFromBase64?: (text: string) => { written: number } };

const sizes = (JSON.parse(document.getElementById('sheaf-parts')?.textContent ?? '') as {
  parts: Partial<Record<string, { size: number }>> }).parts;
const parts = new Map<string, Taken>();

/** Writes what base64 letters say into `room`: how many bytes. */
function readInto(room: Reads, text: string): number {
  if (room.setFromBase64) return room.setFromBase64(text).written;
  const letters = atob(text);
  for (let i = 0; i < letters.length; ++i) room[i] = letters.charCodeAt(i);
  return letters.length;
}

globalThis.sheafTaker = {
  take() {
    const call = document.currentScript;
    const piece = call?.previousElementSibling as HTMLElement;
    const name = piece.dataset.part ?? '';
    const taken = parts.get(name) ?? { bytes: new Uint8Array(sizes[name]?.size ?? 0), at: 0 };
    parts.set(name, taken);
    // A parser may divide long text, wherever it likes; four letters are three bytes.
    let rest = '';
    for (const text of [...piece.childNodes] as Text[]) {
      const letters = rest + text.data;
      text.data = '';
      const whole = letters.length & ~3;
      rest = letters.slice(whole);
      taken.at += readInto(taken.bytes.subarray(taken.at), letters.slice(0, whole));
    }
    piece.remove();
    call?.remove();
  },
  give(name) {
    const taken = parts.get(name);
    parts.delete(name);
    if (taken === undefined || taken.at !== taken.bytes.length) {
      throw new Error(`The part "${name}" is not whole.`);
    }
    return taken.bytes.buffer;
  },
};

export {};
