/** Text made short by the browser's own gzip, where it has one. */
import type { Packed } from './versions.ts';

const through = (bytes: BlobPart, stream: GenericTransformStream): Response =>
  new Response(new Blob([bytes]).stream().pipeThrough(stream as ReadableWritablePair));

/**
 * All that a stream gives; null when that is more than `most` bytes, and then no more of it is made: a few bytes may unpack to any length.
 * Throws (rejects): the stream's own.
 */
export async function gather(
  stream: ReadableStream<Uint8Array>,
  most: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const parts: Uint8Array[] = [];
  let length = 0;
  const reader = stream.getReader();
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    length += next.value.length;
    if (length > most) {
      await reader.cancel();
      return null;
    }
    parts.push(next.value);
  }
  const all = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

export async function pack(text: string): Promise<Packed> {
  if (typeof CompressionStream === 'undefined') return text;
  return new Uint8Array(await through(text, new CompressionStream('gzip')).arrayBuffer());
}

/** Throws (rejects): TypeError where the bytes are not gzip, or the browser cannot read it. */
export async function unpack(packed: Packed): Promise<string> {
  return typeof packed === 'string' ? packed : through(packed, new DecompressionStream('gzip')).text();
}
