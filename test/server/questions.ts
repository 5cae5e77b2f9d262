/**
 * All that an editor asks about a document, at many places: what two servers are to agree on, or one before and after.
 */
import {
  CodeActionRequest,
  CodeLensRequest,
  CompletionRequest,
  DefinitionRequest,
  DocumentFormattingRequest,
  DocumentLinkRequest,
  DocumentSymbolRequest,
  FoldingRangeRequest,
  HoverRequest,
  InlayHintRequest,
  ReferencesRequest,
  SelectionRangeRequest,
  SemanticTokensRequest,
  WorkspaceDiagnosticRequest,
  WorkspaceSymbolRequest,
  type Position,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Client } from './client.ts';

const WHOLE = { start: { line: 0, character: 0 }, end: { line: 99_999, character: 0 } };

/** @param places number of requested offsets, evenly spread */
export async function answersAbout(
  { connection, pull }: Client | Omit<Client, 'stop'>,
  uri: string,
  text: string,
  places = 12,
) {
  const textDocument = { uri };
  const document = TextDocument.create(uri, 'alignbook', 1, text);
  const positions = Array.from({ length: places }, (_, k) =>
    document.positionAt(Math.floor((text.length * (k + 0.5)) / places)),
  );
  const at = <T>(request: (position: Position) => Promise<T>) => Promise.all(positions.map(request));
  return {
    findings: await pull(uri),
    hints: await connection.sendRequest(InlayHintRequest.type, { textDocument, range: WHOLE }),
    symbols: await connection.sendRequest(DocumentSymbolRequest.type, { textDocument }),
    folds: await connection.sendRequest(FoldingRangeRequest.type, { textDocument }),
    links: await connection.sendRequest(DocumentLinkRequest.type, { textDocument }),
    lenses: await connection.sendRequest(CodeLensRequest.type, { textDocument }),
    actions: await connection.sendRequest(CodeActionRequest.type, {
      textDocument,
      range: WHOLE,
      context: { diagnostics: [] },
    }),
    colours: (await connection.sendRequest(SemanticTokensRequest.type, { textDocument }))?.data,
    layout: await connection.sendRequest(DocumentFormattingRequest.type, {
      textDocument,
      options: { tabSize: 2, insertSpaces: true },
    }),
    selections: await connection.sendRequest(SelectionRangeRequest.type, { textDocument, positions }),
    hovers: await at((position) => connection.sendRequest(HoverRequest.type, { textDocument, position })),
    completions: await at((position) => connection.sendRequest(CompletionRequest.type, { textDocument, position })),
    definitions: await at((position) => connection.sendRequest(DefinitionRequest.type, { textDocument, position })),
    references: await at((position) =>
      connection.sendRequest(ReferencesRequest.type, { textDocument, position, context: { includeDeclaration: true } }),
    ),
  };
}

export async function answersAboutAll({ connection }: Client | Omit<Client, 'stop'>) {
  return {
    symbols: await connection.sendRequest(WorkspaceSymbolRequest.type, { query: 'M' }),
    findings: (await connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] })).items,
  };
}
