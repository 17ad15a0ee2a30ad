/** Stand-ins for what several tabs share in a browser: locks and channels. */
import type { MarkStorage } from '../../../src/editor/storage/openingMarks.ts';
import type { Channel, Locks } from '../../../src/editor/storage/tabLock.ts';

/** W3C Web Locks API, 3.4 to 4: a queue a name; ifAvailable, steal and signal. */
export function lockManager(): Locks {
  interface Waiting {
    readonly run: () => void;
  }
  const held = new Map<string, { reject(problem: unknown): void }>();
  const queues = new Map<string, Waiting[]>();
  const abort = () => new DOMException('The lock request was aborted.', 'AbortError');
  const next = (name: string) => {
    held.delete(name);
    queues.get(name)?.shift()?.run();
  };
  return {
    request(name, { ifAvailable, steal, signal }, callback) {
      return new Promise((resolve, reject) => {
        const grant = () => {
          const entry = { reject };
          held.set(name, entry);
          Promise.resolve(callback({ name }))
            .then(resolve, reject)
            .finally(() => {
              if (held.get(name) === entry) next(name);
            });
        };
        if (steal) {
          held.get(name)?.reject(abort());
          grant();
        } else if (!held.has(name)) grant();
        else if (ifAvailable) Promise.resolve(callback(null)).then(resolve, reject);
        else {
          const queue = queues.get(name) ?? [];
          queues.set(name, queue);
          const waiting = { run: grant };
          queue.push(waiting);
          signal?.addEventListener('abort', () => {
            queue.splice(queue.indexOf(waiting), 1);
            reject(abort());
          });
        }
      });
    },
  };
}

/** Channels of one name: what one posts, all others hear. */
export function channels(): () => Channel {
  const open: Channel[] = [];
  return () => {
    const channel: Channel = {
      onmessage: null,
      postMessage(data) {
        for (const other of open) if (other !== channel) other.onmessage?.({ data } as MessageEvent);
      },
      close: () => void open.splice(open.indexOf(channel), 1),
    };
    open.push(channel);
    return channel;
  };
}

/** localStorage or sessionStorage: names and texts. */
export function memoryMarks(): MarkStorage {
  const texts = new Map<string, string>();
  return {
    getItem: (name) => texts.get(name) ?? null,
    setItem: (name, text) => void texts.set(name, text),
    removeItem: (name) => void texts.delete(name),
  };
}
