/** Text made short by the browser's own gzip, where it has one. */
import type { Packed } from './versions.ts';

const through = (bytes: BlobPart, stream: GenericTransformStream): Response =>
  new Response(new Blob([bytes]).stream().pipeThrough(stream as ReadableWritablePair));

export async function pack(text: string): Promise<Packed> {
  if (typeof CompressionStream === 'undefined') return text;
  return new Uint8Array(await through(text, new CompressionStream('gzip')).arrayBuffer());
}

/** Throws (rejects): TypeError where the bytes are not gzip, or the browser cannot read it. */
export async function unpack(packed: Packed): Promise<string> {
  return typeof packed === 'string' ? packed : through(packed, new DecompressionStream('gzip')).text();
}
