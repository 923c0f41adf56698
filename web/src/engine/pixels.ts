/** A drawn page as the module gives it, one byte a pixel or three, and as a screen
 * wants it: red, green, blue and how much of them, which is all. */

/** `into` has four bytes for each pixel. Machines that browsers run on keep the
 * lowest byte of a number first. */
export function forScreen(bytes: Uint8Array, colour: boolean, into: ArrayBuffer): void {
  const pixels = new Uint32Array(into);
  if (!colour) {
    for (let i = 0; i < pixels.length; ++i) pixels[i] = 0xff000000 | ((bytes[i] ?? 0) * 0x010101);
    return;
  }
  for (let i = 0, at = 0; i < pixels.length; ++i, at += 3) {
    pixels[i] = 0xff000000 | ((bytes[at + 2] ?? 0) << 16) | ((bytes[at + 1] ?? 0) << 8) |
      (bytes[at] ?? 0);
  }
}
