/**
 * The record as one self-contained page without script or links, for printing on A4 and Letter. Each printed page has
 * its number, the number of pages, and the hash of the file.
 */
import { renderToString } from 'preact-render-to-string';
import { fitted, standaloneStyle, Target, Visits } from '../drawing/index.ts';
import { harmlessLines } from '../model/index.ts';
import type { Block, DrawnTarget } from './blocks.ts';
import type { Identity } from './record.ts';

/** Pixels: two side by side, and two stations on a printed page. */
const WIDTH = 250;
/** Pixels: two charts side by side, with sentences below. */
const CHART = 320;

/** Paper sizes for printing. */
export type PaperSize = 'A4' | 'letter';

/** @param paper absent: chosen when printing */
export function toHtml(blocks: readonly Block[], { hash }: Pick<Identity, 'hash'>, paper?: PaperSize): string {
  const title = blocks.find(({ kind }) => kind === 'title');
  return harmlessLines(
    `<!doctype html>\n${renderToString(
      <html lang="en">
        <head>
          <meta charset="utf-8" />
          <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
          <meta name="viewport" content="width=device-width" />
          <title>{title?.kind === 'title' ? title.text : ''}</title>
          {/* Raw text in HTML, which is not escaped; it contains no user text, and only hexadecimal digits of the hash. */}
          <style dangerouslySetInnerHTML={{ __html: `${STYLE}\n${pageStyle(hash, paper)}` }} />
        </head>
        <body>
          <main>
            {blocks.map((block, k) => (
              <Written key={k} block={block} />
            ))}
          </main>
        </body>
      </html>,
    )}\n`,
  );
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one case for each kind of block
function Written({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case 'title':
      return <h1>{block.text}</h1>;
    case 'heading':
      return <h2>{block.text}</h2>;
    case 'subheading':
      return <h3>{block.text}</h3>;
    case 'text':
      return <p>{unbroken(block.text)}</p>;
    case 'notice':
      return <p class="notice">{unbroken(block.text)}</p>;
    case 'watermark':
      return (
        <p class="watermark" aria-hidden="true">
          {block.text}
        </p>
      );
    case 'list':
      return <List items={block.items} />;
    case 'facts':
      return (
        <table class="facts">
          <tbody>
            {block.rows.map(([name, value]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{unbroken(value)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      );
    case 'table':
      return (
        <table>
          {block.head.some((cell) => cell !== '') && (
            <thead>
              <tr>
                {block.head.map((cell, k) =>
                  cell === '' ? (
                    <td key={k} />
                  ) : (
                    <th scope="col" key={k}>
                      {cell}
                    </th>
                  ),
                )}
              </tr>
            </thead>
          )}
          <tbody>
            {block.rows.map((row, k) => (
              <tr key={k}>
                {row.map((cell, at) => (
                  <td key={at}>{at === block.struck ? <s>{unbroken(cell)}</s> : unbroken(cell)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      );
    case 'targets':
      return <Tapes targets={block.targets} />;
    case 'visits':
      return (
        <div class="targets">
          {block.figures.map((figure) => (
            <figure key={figure.station}>
              <Visits figure={figure} width={CHART} />
            </figure>
          ))}
        </div>
      );
    case 'signatures':
      return (
        <div class="signatures">
          {block.whose.map((name) => (
            <p key={name}>{name}, date</p>
          ))}
        </div>
      );
  }
}

/** At one scale, because the eye compares them. */
function Tapes({ targets }: { readonly targets: readonly DrawnTarget[] }) {
  const window = fitted(...targets.map(({ figure }) => figure));
  return (
    <div class="targets">
      {targets.map(({ caption, figure, items }) => (
        <figure key={caption}>
          <figcaption>{caption}</figcaption>
          <Target figure={figure} width={WIDTH} window={window} />
          <List items={items} />
        </figure>
      ))}
    </div>
  );
}

function List({ items }: { readonly items: readonly string[] }) {
  return (
    <ul>
      {items.map((item, k) => (
        <li key={k}>{unbroken(item)}</li>
      ))}
    </ul>
  );
}

/**
 * A date, a turn, or a number with its unit, in which no line break is allowed. A number is matched from its first
 * digit only.
 */
const ONE =
  /((?:\d{4}-\d\d-\d\d|(?:in|out) \d+(?:\/\d+)?(?![\w.:])|(?:[<>] )?\d(?<!\d\.*\d)[\d.]*(?:(?: \d+)?\/\d+)?(?: ± \d[\d.]*)? (?:%|mm|in|mrad|W|µm|ms|s|h|J\/m²)(?![\p{L}\d]))[,;.)]?)/u;

function unbroken(text: string) {
  return text.split(ONE).map((part, k) => (k % 2 === 1 ? <span key={k}>{part}</span> : part));
}

/** Number of digits of the hash that identify a file. */
const DIGITS = 16;

function pageStyle(hash: string, paper: PaperSize | undefined): string {
  const of = /^[0-9a-f]{64}$/.test(hash) ? ` of a file with SHA-256 ${hash.slice(0, DIGITS)}…` : '';
  const look = 'font:8.5pt system-ui,"DejaVu Sans",sans-serif;color:#4b5960';
  return `@page{${paper === undefined ? '' : `size:${paper};`}@bottom-left{content:"Record of alignment${of}";${look}}@bottom-right{content:"page " counter(page) " of " counter(pages);${look}}}`;
}

const STYLE = `${standaloneStyle('light')}
@page{margin:16mm 15mm 18mm}
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
.facts td{overflow-wrap:anywhere;font-size:9.5pt}
tr{break-inside:avoid}
.facts th{width:28mm;color:#4b5960}
.notice{border:1pt solid #1b2a33;padding:2mm 3mm;font-weight:600}
.watermark{position:fixed;top:42%;left:0;right:0;margin:0;text-align:center;font-size:72pt;font-weight:700;letter-spacing:.1em;color:#1b2a33;opacity:.1;transform:rotate(-24deg);pointer-events:none}
.targets{display:flex;flex-wrap:wrap;gap:6mm;break-inside:avoid}
figure{margin:0;break-inside:avoid;max-width:100%}
figure ul{padding-left:5mm;width:84mm;box-sizing:border-box;font-size:9.5pt}
span{white-space:nowrap}
figcaption{font-weight:600}
.signatures{display:flex;gap:10mm;margin-top:14mm;break-inside:avoid}
.signatures p{flex:1;border-top:.6pt solid #1b2a33;padding-top:1mm}
@media print{main{padding:0;max-width:none}}
li{break-inside:avoid}`;
