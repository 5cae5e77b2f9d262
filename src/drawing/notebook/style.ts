/** The style of what stands below the cells of a notebook. */

/** Colours of the verdict, which belong to it alone; each mixed with the ink, so that it is read on any ground. */
const VERDICT = {
  within: 'var(--vscode-charts-green, #388a34)',
  borderline: 'var(--vscode-charts-yellow, #bf8803)',
  unexplained: 'var(--vscode-charts-yellow, #bf8803)',
  outside: 'var(--vscode-charts-red, #b3261e)',
} as const;

export const SHEET_STYLE = `
.sheet{font-family:var(--vscode-font-family);font-size:13px;line-height:18px;color:var(--vscode-editor-foreground,#1b2a33);
font-variant-numeric:tabular-nums;box-sizing:border-box}
.sheet.row{display:flex;gap:20px;align-items:flex-start}
.sheet svg{flex:none}
.sheet .facts{min-width:0;flex:1}
.sheet p{margin:0 0 6px}
.sheet .verdict{display:flex;gap:8px;align-items:center;margin-bottom:8px}
${Object.entries(VERDICT)
  .map(
    ([state, colour]) =>
      `.sheet .state.${state}{color:color-mix(in srgb,${colour} 65%,var(--vscode-editor-foreground,#1b2a33))}`,
  )
  .join('\n')}
.sheet table{border-collapse:collapse;margin:0 0 8px;font-size:12px}
.sheet th,.sheet td{text-align:left;font-weight:400;padding:3px 16px 3px 0;vertical-align:baseline;
border-bottom:1px solid color-mix(in srgb,var(--vscode-editor-foreground,#1b2a33) 13%,transparent)}
.sheet thead th,.sheet .muted,.sheet small,.sheet .place{color:color-mix(in srgb,var(--vscode-editor-foreground,#1b2a33) 75%,
var(--vscode-editor-background,#fff))}
.sheet .far{font-weight:600}
.sheet .shots{list-style:none;margin:0;padding:0;font-size:12px}
.sheet .shots li{display:flex;flex-wrap:wrap;gap:2px 8px;align-items:center;min-height:22px}
.sheet .axis{white-space:nowrap}
.sheet .axis b{font-weight:600;margin-right:6px}
.sheet small{font-size:11px}
.sheet.care{display:flex;flex-wrap:wrap;gap:4px 12px;align-items:center;margin:0;font-size:12px}
`;
