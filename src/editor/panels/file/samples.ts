/** The sample plans that come with the program, read when one is asked for. */

export interface Sample {
  readonly id: string;
  readonly name: string;
  readonly text: () => Promise<string>;
}

const files = import.meta.glob<string>('../../../../samples/*.legroom.json', { query: '?raw', import: 'default' });

/** `five-toms-front-rack` reads `Five toms front rack`. */
const nameOf = (id: string) => id[0].toUpperCase() + id.slice(1).replaceAll('-', ' ');

export const SAMPLES: readonly Sample[] = Object.entries(files)
  .map(([path, text]) => {
    const id = path.split('/').pop()!.replace('.legroom.json', '');
    return { id, name: nameOf(id), text };
  })
  .sort((a, b) => (a.id < b.id ? -1 : 1));
