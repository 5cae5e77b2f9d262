/** The panel's style: the editor's colours and font, text on the editor's own background, hair lines, no animation but one. */
import { editorStyle } from '../../drawing/index.ts';

const FRAME = `
*{box-sizing:border-box}
html,body{height:100%;margin:0;padding:0;overflow:hidden}
body{font-family:var(--vscode-font-family);font-size:var(--vscode-font-size,13px);background:var(--vscode-editor-background)}
#sheet{height:100%;color:var(--ink);font-variant-numeric:tabular-nums}
.work{height:100%;display:flex;flex-direction:column}
.under{flex:1;min-height:0;display:flex;flex-direction:column}
.body{flex:1;min-height:0;display:flex;flex-direction:column}
.rest{flex:1;min-height:0;overflow-y:auto;padding:0 var(--margin) 16px}
.left{flex:none;padding:0 var(--margin)}
.middle .left{display:grid;grid-template-columns:var(--tape-size) 162px;gap:14px;padding-right:0;height:calc(var(--tape-size) + 36px)}
.middle .left .shots{overflow-y:auto;padding:0 12px 0 6px;margin-left:-6px;width:182px}
.wide .body{display:grid;grid-template-columns:calc(var(--tape-size) + 2 * var(--margin)) 1fr}
.wide .left{display:flex;flex-direction:column;justify-content:space-between;min-height:0}
.wide .rest{padding-left:6px;margin-left:-6px}
.low .under,.low .body,.low .rest{display:block;overflow:visible}
.low .under{overflow-y:auto}
.low .rest{padding-top:8px}
.middle .rest,.narrow .rest{border-top:1px solid var(--line)}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.empty{padding:12px 16px}
h2{font-size:12px;font-weight:600;margin:10px 0 6px}
h2 span{font-weight:400;color:var(--pale)}
p{margin:4px 0}
ul,ol,dl,dd{margin:0;padding:0}
li{list-style:none}
small{font-size:11px}
.pale,small{color:var(--pale)}
b{font-weight:600}
`;

const CONTROLS = `
button{font:inherit;font-size:13px;line-height:18px;min-height:26px;padding:3px 12px;border-radius:2px;cursor:pointer;color:var(--vscode-button-secondaryForeground,var(--ink));background:var(--vscode-button-secondaryBackground,transparent);border:1px solid var(--vscode-contrastBorder,var(--vscode-button-border,transparent))}
button.main{color:var(--vscode-button-foreground);background:var(--vscode-button-background);border-color:var(--vscode-contrastBorder,var(--vscode-button-border,transparent))}
button:disabled{opacity:.5;cursor:default}
:focus-visible{outline:2px solid var(--vscode-focusBorder);outline-offset:1px}
.row{display:flex;flex-wrap:wrap;gap:8px;margin:8px 0}
.switch{display:flex;border:1px solid var(--vscode-contrastBorder,var(--rule));border-radius:2px;flex:none}
.switch button{border:0;font-size:12px;line-height:16px;min-height:24px;padding:2px 8px;background:transparent;color:var(--pale)}
.switch button+button{border-left:1px solid var(--vscode-contrastBorder,var(--rule))}
.switch button[aria-pressed=true]{color:var(--ink);background:var(--allowed);font-weight:600}
.vscode-light .switch button[aria-pressed=true]{background:var(--line)}
.vscode-high-contrast .switch button[aria-pressed=true]{text-decoration:underline}
kbd{font:inherit;font-size:11px;display:inline-block;border:1px solid var(--rule);border-radius:2px;padding:0 4px;margin-right:4px;color:var(--pale)}
`;

const PINNED = `
.strip{flex:none;height:var(--strip);display:flex;align-items:center;gap:12px;padding:0 var(--margin);margin:0;position:relative}
.strip::after,.path::after{content:"";position:absolute;left:var(--margin);right:var(--margin);bottom:0;border-bottom:1px solid var(--line)}
.strip .act{width:44px;height:44px;flex:none}
.strip .text{flex:1;min-width:0;max-height:64px;overflow:hidden}
.strip .main{flex:none}
.strip .ways{flex:none;display:flex;flex-direction:column;gap:4px}
.strip .ways button{min-height:26px}
.sentence{font-size:16px;line-height:21px;font-weight:600;margin:0;overflow-wrap:anywhere}
.sentence.long{font-size:14px;line-height:18px}
.sentence.longer{font-size:12px;line-height:15px}
.why{font-size:12px;line-height:16px;margin:0;color:var(--pale)}
.narrow .strip{display:grid;grid-template-columns:44px 1fr;grid-template-rows:72px 26px;gap:0 10px;padding-bottom:10px;align-content:start}
.narrow .strip .text{max-height:70px}
.narrow .strip .main{grid-column:1/3}
.narrow .strip .ways{grid-column:1/3;flex-direction:row}
.narrow .strip .ways button{flex:1}
.narrow .strip .why{font-size:11px;line-height:15px}
.path{flex:none;height:var(--path);display:flex;padding:0 var(--margin);overflow-x:auto;overflow-y:hidden;position:relative;scrollbar-width:none}
.tube{flex:none;width:48px;position:relative;padding-top:33px;line-height:0}
.tube svg{display:block;width:32px;height:12px}
.tube .word{position:absolute;top:60px;left:3px}
.path .ink{fill:none;stroke:var(--ink)}
.station{flex:1 0 72px;max-width:240px;position:relative;display:flex;flex-direction:column;align-items:center;cursor:pointer}
.narrow .station{flex-basis:56px}
.station input{appearance:none;position:absolute;inset:0;margin:0;width:100%;height:100%;cursor:pointer;z-index:1}
.station input:focus-visible{outline:2px solid var(--vscode-focusBorder);outline-offset:-2px}
.station .act{height:18px;line-height:18px;font-size:11px;font-weight:600;white-space:nowrap}
.station svg{display:block;flex:none;position:relative}
.station .name,.word{font-size:12px;line-height:14px;white-space:nowrap}
.station .word,.tube .word{font-size:11px}
.tube .word{font-size:12px;line-height:14px;color:var(--pale)}
.station.chosen .name{font-weight:600}
.station.chosen::after{content:"";position:absolute;bottom:0;left:50%;width:68px;max-width:100%;transform:translateX(-50%);height:3px;background:var(--vscode-focusBorder)}
.beam{position:absolute;top:37px;height:0;border-top:2px dotted var(--pale);left:0;right:calc(50% + 19px)}
.beam.after{left:calc(50% + 19px);right:0}
.beam.seen{border-top:2px solid var(--ink)}
.station:nth-child(2) .beam:not(.after){left:-16px}
.narrow .tube{width:22px}.narrow .station:nth-child(2) .beam:not(.after){left:0}.narrow .tube svg{width:22px}.narrow .tube .word{display:none}
.narrow .station:not(.chosen) .word{display:none}
.narrow .station .act{height:15px;line-height:15px}.narrow .station .name{line-height:13px}.narrow .station .word{line-height:12px}.narrow .beam{top:34px}.narrow .tube{padding-top:29px}
.wordless .path .name,.wordless .path .word{display:none}
.v-within{color:var(--within)}.v-border{color:var(--border)}.v-outside{color:var(--outside)}.v-stop{color:var(--stop)}.v-pale{color:var(--pale)}
.bar{flex:none;height:38px;display:flex;align-items:center;gap:8px;padding:0 var(--margin);font-size:13px}
.bar .of{flex:1;min-width:0;display:flex;align-items:center;gap:5px;white-space:nowrap;overflow:hidden}
.bar .note{overflow:hidden;text-overflow:ellipsis}
.rounds{display:flex;align-items:center}
.rounds button{min-height:24px;min-width:24px;padding:0;background:transparent;border:0;color:var(--ink)}
.more{position:relative}
.more>button{min-height:24px;min-width:24px;padding:0;background:transparent;color:var(--ink)}
.menu{position:absolute;right:0;top:30px;z-index:3;background:var(--paper);padding:8px;border:1px solid var(--rule)}
.tape{position:relative;line-height:0;touch-action:none;border-radius:3px}
.tape.reading{cursor:crosshair}
.figure .mark{cursor:pointer}
.figure .mark:focus-visible{outline:none}
.figure .mark:focus-visible>circle:first-of-type{stroke:var(--vscode-focusBorder);stroke-width:2}
.tape.reading .mark{pointer-events:none}
.zoom{position:absolute;right:6px;top:calc(var(--tape-size) - 13px);display:flex;border:1px solid var(--vscode-contrastBorder,var(--rule));border-radius:2px;background:var(--paper)}
.zoom button{min-height:24px;min-width:24px;padding:0 6px;font-size:11px;line-height:16px;border:0;background:transparent;color:var(--ink)}
.zoom button+button{border-left:1px solid var(--vscode-contrastBorder,var(--rule))}
`;

const SCROLLED = `
.shot{display:flex;gap:4px;width:calc(100% + 8px);margin:0 -4px;padding:3px;border:1px solid transparent;background:transparent;color:var(--ink);text-align:left;align-items:flex-start}
.shot.asked{border-color:var(--vscode-focusBorder);background:color-mix(in srgb,var(--vscode-focusBorder) 12%,var(--paper))}
.shot.asked small{color:var(--ink)}
.shot svg{flex:none}
.shot .what{display:flex;flex-direction:column;min-width:0}
.shot .place{font-size:12px;line-height:16px}
.shot .reading{line-height:17px;min-height:17px}
.shot .reading small{display:inline-block;white-space:nowrap}
.measured,.key{border-top:1px solid var(--line);margin-top:8px;padding-top:6px;font-size:11px;line-height:15px}
.measured .limit{font-weight:600}
.key{color:var(--pale)}
.key li{display:grid;grid-template-columns:22px 1fr;gap:4px;margin-bottom:3px}
.beside{display:flex;gap:4px 20px;flex-wrap:wrap;align-items:flex-start}
.mount,.turning,.keys{margin:0}
.turning{flex:1 1 250px;min-width:0;max-width:420px}
.keys dl{font-size:11px}
.keys dl>div{display:grid;grid-template-columns:116px 1fr;line-height:20px}
.slider{display:grid;grid-template-columns:minmax(22px,auto) auto minmax(80px,1fr) auto 5.2em;gap:8px;align-items:center;height:28px;font-size:12px;cursor:default}
.track{position:relative;height:26px;margin:0 8px}
.track i{position:absolute;pointer-events:none;font-style:normal}
.track .line{left:0;right:0;top:11px;height:3px;border-radius:2px;background:var(--rule)}
.track .fill{top:11px;height:3px}
.track .fill.out{background:var(--out)}.track .fill.in{background:var(--in)}
.track .tick{top:18px;width:1px;height:4px;background:var(--pale)}
.track .tick.zero{height:7px}
.track .advice{top:-7px;font-size:12px;line-height:12px;transform:translateX(-50%);color:var(--ink)}
.track input{appearance:none;position:absolute;left:-8px;width:calc(100% + 16px);top:0;height:26px;margin:0;background:transparent}
.track input::-webkit-slider-thumb{appearance:none;width:16px;height:16px;border-radius:50%;background:var(--paper);border:2px solid var(--ink);cursor:pointer}
.track input:focus-visible{outline:none}
.track input:focus-visible::-webkit-slider-thumb{outline:2px solid var(--vscode-focusBorder);outline-offset:1px;border-color:var(--vscode-focusBorder)}
.choice{flex:1 1 250px;min-width:0;max-width:520px}
.choice table{width:100%}
.choice svg{display:block}
.carriage{display:grid;grid-template-columns:5em minmax(6em,1fr) 7em;gap:8px;align-items:center;min-height:26px;margin:2px 0}
.carriage .track{margin:0 8px}
.outlook{font-size:12px;width:100%;margin-top:4px}
.outlook th,.outlook td{padding:1px 8px 1px 0;border:0}
.outlook thead th{color:var(--pale);font-size:11px}
.check{display:flex;gap:12px;align-items:center;min-height:26px;cursor:pointer}
.vscode-dark .check input,.vscode-high-contrast:not(.vscode-high-contrast-light) .check input{color-scheme:dark}
.check input{width:16px;height:16px;margin:0;flex:none;accent-color:var(--vscode-button-background)}
.bench .pale{font-size:11px;line-height:15px}
.order ol{padding-left:20px}
.order li{list-style:decimal;padding:2px 0}
.change{display:grid;grid-template-columns:8em minmax(0,240px) auto;gap:8px;align-items:center;font-size:12px;min-height:20px}
.change svg{width:100%}
.change .numbers{text-align:right;white-space:nowrap}
.narrow .change{grid-template-columns:1fr auto}.narrow .change svg{grid-column:1/3;grid-row:2}
.disclosures{display:flex;flex-wrap:wrap;gap:0 12px;border-top:1px solid var(--line);margin-top:12px;padding:4px 0}
.disclosures button{background:transparent;border:0;padding:3px 2px;font-size:12px;color:var(--ink)}
.opened{border-top:1px solid var(--line)}
.lines{margin:4px 0;padding-left:18px}
.lines li{list-style:disc}
table{border-collapse:collapse;margin:4px 0}
caption{text-align:left;color:var(--pale);padding-bottom:4px}
th,td{text-align:left;padding:2px 10px 2px 0;border-bottom:1px solid var(--line);font-weight:400;vertical-align:top}
.scroll{overflow-x:auto}
`;

const PRACTICE = `
.practice-strip{flex:none;height:26px;display:flex;align-items:center;gap:16px;padding:0 var(--margin);font-size:11px;overflow:hidden;white-space:nowrap;border-bottom:1px solid var(--rule);background:repeating-linear-gradient(135deg,var(--line) 0 6px,transparent 6px 12px)}
.practice-strip b,.practice-strip span{background:var(--paper);padding:1px 6px;overflow:hidden;text-overflow:ellipsis}
.practice-strip b{flex:none;font-weight:600;letter-spacing:.06em}
.practice{border-bottom:1px solid var(--line);margin-bottom:8px}
.fire{display:flex;flex-wrap:wrap;gap:8px;align-items:flex-end;margin:8px 0}
.fire label{flex:1 1 220px;font-size:12px}
.fire input{display:block;width:100%;margin-top:4px;min-height:26px;padding:3px 6px;font:inherit;font-size:13px;color:var(--vscode-input-foreground,var(--ink));background:var(--vscode-input-background,transparent);border:1px solid var(--vscode-input-border,var(--rule));border-radius:2px}
.compared{font-size:12px}
.closing-sheet{flex:1;min-height:0;overflow-y:auto;padding:8px var(--margin) 16px}
.closing-sheet h1{font-size:16px;font-weight:600;margin:4px 0}
`;

/** The one motion: the ring of the strip closes, and that of the limit brightens and settles. */
const MOMENT = `
@media (prefers-reduced-motion:no-preference){
.closing{stroke-dasharray:100;animation:closing .4s ease-out 1}
.settling .tape .limit{animation:settling .4s ease-out 1}
}
@keyframes closing{from{stroke-dashoffset:100}to{stroke-dashoffset:0}}
@keyframes settling{0%{stroke:var(--within);stroke-width:4}100%{stroke-width:1.25}}
`;

export const STYLE = `${editorStyle()}${FRAME}${CONTROLS}${PINNED}${SCROLLED}${PRACTICE}${MOMENT}`;
