/** The sample plans that come with the program: their names at once, each plan when it is asked for. */

export interface Sample {
  readonly id: string;
  readonly name: string;
  readonly text: () => Promise<string>;
}

const files = import.meta.glob<string>('../../../../samples/*.legroom.json', { query: '?raw', import: 'default' });
/** Only this one field of each file gets into the page. */
const names = import.meta.glob<string>('../../../../samples/*.legroom.json', { import: 'name', eager: true });

/** The first samples of the list: the common kit, then one kit on several bases. The others follow by file name. */
const FIRST = ['one-up-two-down', 'four-bases'];
const rank = (id: string): number => (FIRST.includes(id) ? FIRST.indexOf(id) : FIRST.length);

export const SAMPLES: readonly Sample[] = Object.entries(files)
  .map(([path, text]) => ({
    id: path.split('/').pop()!.replace('.legroom.json', ''),
    name: names[path],
    text,
  }))
  .sort((a, b) => rank(a.id) - rank(b.id) || (a.id < b.id ? -1 : 1));
