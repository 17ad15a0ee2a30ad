/**
 * Parts of the page that come when they are asked for. One that does not come is of a build that the server no longer has, or
 * there is no connection: either is said in a sentence, and nothing of the plan depends on it.
 */

const REPLACED =
  'A newer version of Legroom is out, and this part of the old one is gone: reload the page. Your plan is safe.';
const NO_CONNECTION =
  'This part of Legroom did not come: there is no connection. Your plan is safe. Reload the page once there is one.';

/** A part did not come. The message is a sentence. */
export class PartMissing extends Error {
  /** Whether loading the page anew brings it: not without a connection, where it would take the page away as well. */
  readonly helpsReload: boolean;
  constructor(helpsReload: boolean) {
    super(helpsReload ? REPLACED : NO_CONNECTION);
    this.helpsReload = helpsReload;
  }
}

/** The part, once it is here. Throws (rejects): PartMissing. */
export async function arrive<T>(part: Promise<T>): Promise<T> {
  try {
    return await part;
  } catch {
    const [address] = location.href.split('#');
    const answer = await fetch(address, { method: 'HEAD', cache: 'no-store' }).catch(() => null);
    throw new PartMissing(answer !== null);
  }
}
