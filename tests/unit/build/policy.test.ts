import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { LIBRARY_STYLES, POLICY } from '../../../tools/build/policy.ts';

test('the styles that the policy lets in are those of the library, one of which only some browsers ask for', () => {
  const sources = ['interactions/usePress', 'overlays/usePreventScroll'].map((name) =>
    readFileSync(new URL(`../../../node_modules/react-aria/dist/private/${name}.mjs`, import.meta.url), 'utf8'),
  );
  const written = sources.map((text) => {
    const [, style] = /textContent = `([^`]*)`/.exec(text)!;
    return style.replace(/\$\{[^}]*PRESSABLE_ATTRIBUTE\}/, 'data-react-aria-pressable').trim();
  });
  expect(written).toEqual(LIBRARY_STYLES);
});

test('the policy lets no text become a script, and speaks with no other server', () => {
  const rules = new Map(POLICY.split('; ').map((rule) => [rule.slice(0, rule.indexOf(' ')), rule]));
  expect(rules.get('default-src')).toBe("default-src 'none'");
  expect(rules.get('connect-src')).toBe("connect-src 'self'");
  expect(rules.get('script-src')).toBe("script-src 'self' 'wasm-unsafe-eval'");
  expect(POLICY).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
});
