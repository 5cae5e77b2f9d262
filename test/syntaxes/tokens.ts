/** Text → scopes, by the engine and the regular expressions that the editor uses. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import { ROOT } from '../house/layers.ts';

export interface Token {
  readonly text: string;
  readonly start: number;
  readonly scopes: readonly string[];
}

const GRAMMAR = join(ROOT, 'syntaxes', 'alignbook.tmLanguage.json');

export async function loadGrammar(): Promise<IGrammar> {
  await oniguruma.loadWASM(readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: () => Promise.resolve(textmate.parseRawGrammar(readFileSync(GRAMMAR, 'utf8'), GRAMMAR)),
  });
  return (await registry.loadGrammar('source.alignbook'))!;
}

/** One list of tokens for each line. */
export function tokenize(grammar: IGrammar, text: string): Token[][] {
  let state = textmate.INITIAL;
  return text.split('\n').map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    return tokens.map(({ startIndex, endIndex, scopes }) => ({
      text: line.slice(startIndex, endIndex),
      start: startIndex,
      scopes,
    }));
  });
}
