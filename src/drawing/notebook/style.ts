/** The style of what stands below the cells of a notebook; its colours are those of the figures. */

/** The colours of the verdict belong to its word alone. */
const VERDICT = { within: 'within', borderline: 'border', unexplained: 'border', outside: 'outside' } as const;

export const SHEET_STYLE = `
.sheet{font-family:var(--vscode-font-family);font-size:13px;line-height:18px;color:var(--ink);
font-variant-numeric:tabular-nums;box-sizing:border-box}
.sheet.row{display:flex;gap:20px;align-items:flex-start}
.sheet svg{flex:none}
.sheet .facts{min-width:0;flex:1}
.sheet p{margin:0 0 6px}
.sheet .verdict{display:flex;flex-wrap:wrap;gap:2px 8px;align-items:center;margin-bottom:8px}
${Object.entries(VERDICT)
  .map(([state, colour]) => `.sheet .state.${state}{color:var(--${colour})}`)
  .join('\n')}
.sheet table{border-collapse:collapse;margin:0 0 8px;font-size:12px;color:inherit}
.sheet thead th{white-space:nowrap}
.sheet thead,.sheet tbody tr,.sheet tbody tr:nth-child(even),.sheet tbody tr:hover{background:none}
.sheet th,.sheet td{text-align:left;font-weight:400;padding:3px 16px 3px 0;vertical-align:baseline;border:none;
border-bottom:1px solid var(--line)}
.sheet thead th,.sheet.muted,.sheet .muted,.sheet small,.sheet .place{color:var(--pale)}
.sheet .far{font-weight:600}
.sheet .shots{list-style:none;margin:0;padding:0;font-size:12px}
.sheet .shots li{display:flex;flex-wrap:wrap;gap:2px 8px;align-items:center;min-height:22px}
.sheet .axis{white-space:nowrap}
.sheet .axis b{font-weight:600;margin-right:6px}
.sheet small{font-size:11px}
.sheet.care{display:flex;flex-wrap:wrap;gap:4px 12px;align-items:center;margin:0;font-size:12px}
`;
