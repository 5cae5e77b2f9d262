/** The record as one page that needs nothing else: no script, no address, and it prints well on A4 and Letter. */
import { renderToString } from 'preact-render-to-string';
import { standaloneStyle, Target, Visits } from '../drawing/index.ts';
import type { Block } from './blocks.ts';

/** Pixels: two side by side on paper. */
const WIDTH = 320;

export function toHtml(blocks: readonly Block[]): string {
  const title = blocks.find(({ kind }) => kind === 'title');
  return `<!doctype html>\n${renderToString(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <meta name="viewport" content="width=device-width" />
        <title>{title?.kind === 'title' ? title.text : ''}</title>
        {/* Raw text in HTML, where nothing is escaped; there is no text of the user's in it. */}
        <style dangerouslySetInnerHTML={{ __html: STYLE }} />
      </head>
      <body><main>{blocks.map((block, k) => <Written key={k} block={block} />)}</main></body>
    </html>,
  )}\n`;
}

function Written({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case 'title': return <h1>{block.text}</h1>;
    case 'heading': return <h2>{block.text}</h2>;
    case 'subheading': return <h3>{block.text}</h3>;
    case 'text': return <p>{block.text}</p>;
    case 'notice': return <p class="notice">{block.text}</p>;
    case 'list': return <ul>{block.items.map((item, k) => <li key={k}>{item}</li>)}</ul>;
    case 'facts': return <table class="facts"><tbody>{block.rows.map(([name, value]) => <tr key={name}><th scope="row">{name}</th><td>{value}</td></tr>)}</tbody></table>;
    case 'table': return (
      <table>
        {block.head.some((cell) => cell !== '') && <thead><tr>{block.head.map((cell, k) => (cell === '' ? <td key={k} /> : <th scope="col" key={k}>{cell}</th>))}</tr></thead>}
        <tbody>{block.rows.map((row, k) => <tr key={k}>{row.map((cell, at) => <td key={at}>{cell}</td>)}</tr>)}</tbody>
      </table>
    );
    case 'targets': return <div class="targets">{block.targets.map(({ caption, figure }) => <figure key={caption}><figcaption>{caption}</figcaption><Target figure={figure} width={WIDTH} /></figure>)}</div>;
    case 'visits': return <div class="targets">{block.figures.map((figure) => <figure key={figure.station}><Visits figure={figure} width={WIDTH} /></figure>)}</div>;
    case 'signatures': return <div class="signatures">{block.whose.map((name) => <p key={name}>{name}, date</p>)}</div>;
  }
}

const STYLE = `${standaloneStyle('light')}
@page{margin:16mm 15mm}
:root{color-scheme:light}
body{margin:0;background:#fff;color:#1b2a33;font:10.5pt/1.4 system-ui,"DejaVu Sans",sans-serif}
main{max-width:180mm;margin:0 auto;padding:8mm}
h1{font-size:17pt;font-weight:600;margin:0 0 4mm;border-bottom:1.5pt solid #1b2a33;padding-bottom:2mm}
h2{font-size:12.5pt;font-weight:600;margin:7mm 0 2mm;border-bottom:.5pt solid #66757d}
h3{font-size:11pt;font-weight:600;margin:4mm 0 1mm}
h1,h2,h3{break-after:avoid}
p,ul{margin:1.5mm 0}
li{overflow-wrap:anywhere;white-space:pre-line}
table{border-collapse:collapse;width:100%;margin:1mm 0 2mm}
th,td{text-align:left;vertical-align:top;padding:.8mm 3mm .8mm 0;border-bottom:.4pt solid #c8d0d3;font-weight:400;overflow-wrap:anywhere;white-space:pre-line}
thead th{font-weight:600;white-space:nowrap}
td:nth-child(-n+2){overflow-wrap:break-word}
.facts td{overflow-wrap:anywhere}
tr{break-inside:avoid}
.facts th{width:28mm;color:#4b5960}
.notice{border:1pt solid #1b2a33;padding:2mm 3mm;font-weight:600}
.targets{display:flex;flex-wrap:wrap;gap:6mm;break-inside:avoid}
figure{margin:0;break-inside:avoid}
figcaption{font-weight:600}
.signatures{display:flex;gap:10mm;margin-top:14mm;break-inside:avoid}
.signatures p{flex:1;border-top:.6pt solid #1b2a33;padding-top:1mm}
@media print{main{padding:0;max-width:none}}`;
