/** The panel's page: one script of our own, named by a number that is used once; nothing else may run, and nothing is loaded from anywhere. */
import { Uri, workspace } from 'vscode';

/** The script stands in the page: fetched from beside it, it would come later than all the rest together. */
export async function pageIn(extension: Uri): Promise<string> {
  const script = new TextDecoder().decode(
    await workspace.fs.readFile(Uri.joinPath(extension, 'dist', 'preview', 'panel.js')),
  );
  const nonce = numberUsedOnce();
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width">
<title>Targets</title>
</head>
<body>
<main id="sheet"></main>
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}

function numberUsedOnce(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
