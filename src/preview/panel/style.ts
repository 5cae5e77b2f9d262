/** The panel's style: the editor's colours and font, thin lines, no animation. */
import { editorStyle } from '../../drawing/index.ts';

export const STYLE = `${editorStyle()}
html{overflow-y:scroll}
body{padding:0 12px 24px;font-family:var(--vscode-font-family);font-size:var(--vscode-font-size);color:var(--vscode-foreground);max-width:560px}
h1{font-size:1.1em;font-weight:600;margin:12px 0 4px}
h2{font-size:1em;font-weight:600;margin:16px 0 4px}
p{margin:4px 0}
ul{margin:4px 0;padding-left:18px}
.next{border-left:3px solid var(--vscode-foreground);padding:2px 8px;margin:6px 0 10px}
.next.within{border-left-color:var(--vscode-charts-green,#388a34)}
.next.blocked{border-left-color:var(--vscode-errorForeground,#b3261e)}
fieldset{border:0;padding:0;margin:8px 0;display:flex;flex-wrap:wrap;gap:4px}
legend{padding:0;margin-bottom:2px;color:var(--vscode-descriptionForeground)}
fieldset label{border:1px solid var(--vscode-contrastBorder,var(--vscode-input-border,#8884));padding:2px 8px;cursor:pointer}
fieldset label:has(:checked){border-color:var(--vscode-focusBorder);outline:1px solid var(--vscode-focusBorder)}
fieldset label:has(:focus-visible){outline:2px solid var(--vscode-focusBorder)}
fieldset input{margin:0 4px 0 0;accent-color:var(--vscode-focusBorder)}
.row{display:flex;flex-wrap:wrap;gap:8px;align-items:center;margin:6px 0}
button{font:inherit;color:var(--vscode-button-secondaryForeground,inherit);background:var(--vscode-button-secondaryBackground,transparent);border:1px solid var(--vscode-contrastBorder,var(--vscode-button-border,#8888));padding:3px 10px;cursor:pointer}
button.main{color:var(--vscode-button-foreground);background:var(--vscode-button-background)}
button[aria-pressed=true]{outline:2px solid var(--vscode-focusBorder)}
button:focus-visible,.tape:focus-visible,summary:focus-visible,[role=button]:focus-visible{outline:2px solid var(--vscode-focusBorder);outline-offset:1px}
.tape{display:inline-block;line-height:0}
.tape.placing{cursor:crosshair}
.figure .mark{cursor:pointer}
.figure .mark:focus-visible path{stroke:var(--vscode-focusBorder);stroke-width:3}
.tape.placing .mark{pointer-events:none}
table{border-collapse:collapse;margin:4px 0}
caption{text-align:left;color:var(--vscode-descriptionForeground);padding-bottom:4px}
th,td{text-align:left;padding:2px 10px 2px 0;border-bottom:1px solid var(--line,#8884);font-weight:400;vertical-align:top}
.scroll{overflow-x:auto}
.screw{display:grid;grid-template-columns:5em minmax(6em,1fr) 7em;gap:8px;align-items:center;margin:2px 0}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
`;
