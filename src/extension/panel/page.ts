/** The panel's page. Its content security policy allows one script, our own, by nonce, and loads nothing. */
import { Uri, workspace } from 'vscode';

/** The script is inline: loading it from a file would take longer than all the rest together. */
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
<main id="sheet" class="colours"></main>
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}

function numberUsedOnce(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
