/**
 * licences.txt beside the page: this program's own licence, then the name, version and licence text of every package that a
 * build put into it, scripts, fonts and all. What is in a build is read from the bundles themselves, not from a list.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The folder of the package that a module is of; null for a module of ours, or one that the bundler made. */
function packageFolder(module: string): string | null {
  const path = module.replaceAll('\\', '/');
  const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path);
  return found === null || path.startsWith('\0') ? null : found[1];
}

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
  readonly repository?: string | { readonly url: string };
}

const IS_LICENCE = /^(licen[cs]e|copying|notice|ofl)([._-]|$)/i;

/** Throws: Error when a package names no licence, or brings neither its text nor the address of its source: somebody must look. */
function noticeOf(folder: string): string {
  const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;
  const { name, version, license, repository } = manifest;
  const texts = readdirSync(folder)
    .filter((file) => IS_LICENCE.test(file))
    .sort()
    .map((file) => readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim());
  const source = (typeof repository === 'string' ? repository : repository?.url)?.replace(
    /^git@([^:]+):/,
    'https://$1/',
  );
  if (license === undefined || (texts.length === 0 && source === undefined))
    throw new Error(`The package ${name} in the build does not say what its licence is.`);
  const words = texts.length > 0 ? texts : [`Under the licence ${license}. Its source and licence: ${source}`];
  return [`${name} ${version} (${license})`, ...words].join('\n\n');
}

const RULE = `\n\n${'-'.repeat(78)}\n\n`;

/** The whole file. `ours`: this program's own licence text. */
export function noticesOf(ours: string, modules: Iterable<string>): string {
  const folders = new Set<string>();
  for (const module of modules) {
    const folder = packageFolder(module);
    if (folder !== null) folders.add(folder);
  }
  const theirs = [...folders].map(noticeOf).sort();
  const opening = 'Legroom is made with the work of others. Each is named with its licence.';
  return `${[ours.trim(), opening, ...new Set(theirs)].join(RULE)}\n`;
}
