/** The large parts of the page, wherever they are: gzip, in a blob or beside it. */

/** What every worker begins with. */
export interface Parts {
  module: WebAssembly.Module;
  /** What comes with Sheaf, packed: see pack.ts. Paths are relative to
   * share/sheaf: "phonics.bin", "fonts/OFL.txt", "layouts/week.yaml". */
  data: Blob;
}
/** With the milliseconds that it took. */
export interface Loaded extends Parts { unpacked: number; compiled: number }

/** Bytes that are here, or a file with its SHA-256. */
export type PartSource = ArrayBuffer | { address: string; integrity?: string };

/** As it came. */
export async function packedPart(source: PartSource): Promise<Blob> {
  if (source instanceof ArrayBuffer) return new Blob([source]);
  const { address, integrity } = source;
  const answer = await fetch(address, integrity === undefined ? {} : { integrity });
  if (!answer.ok) throw new Error(`${address} is missing`);
  return answer.blob();
}

/** Puts a part into a store of the browser for later visits, unless it is there. */
export async function keepPart(store: string, source: PartSource): Promise<Blob> {
  if (source instanceof ArrayBuffer) return packedPart(source);
  const cache = await caches.open(store);
  const kept = await cache.match(source.address);
  if (kept) return kept.blob();
  const blob = await packedPart(source);
  await cache.put(source.address, new Response(blob));
  return blob;
}

/** A blob again: the browser keeps it outside the page. */
export async function wholePart(source: PartSource | Blob): Promise<Blob> {
  const packed = (source instanceof Blob ? source : await packedPart(source)).stream();
  return new Response(packed.pipeThrough(new DecompressionStream('gzip'))).blob();
}

export async function loadParts(module: PartSource, data: PartSource): Promise<Loaded> {
  const begin = performance.now();
  const [bytes, shippedData] = await Promise.all([
    wholePart(module).then((part) => part.arrayBuffer()), wholePart(data)]);
  const unpacked = performance.now() - begin;
  const made = await WebAssembly.compile(bytes);
  return { module: made, data: shippedData, unpacked,
    compiled: performance.now() - begin - unpacked };
}
