/** What `--help` prints. */
export const USAGE = `alignbook COMMAND FILE…

  next FILE…     show what to do now, why, and what the marks mean; --brief in at most 24
                 lines of 48 columns
  add FILE       ask for the marks of the next step, or whether it is done, and log it
  new FILE       ask what a machine is like, and create its workbook
  check FILE…    list findings in the workbooks, as FILE:LINE:COL severity code message;
                 --fail-on warnings,released-outside (beside errors), --changed-since
                 HEAD, --sarif, --github, --stdin-name PATH (where - stands)
  format FILE…   --check names the workbooks that the formatter would change, --write
                 changes them
  explain CODE   print what a finding means, and what to do
  care FILE…     list what was found and done to each part, when it is due, and the power
  sessions FILE… show each station as found and as left, visit by visit, the drift in
                 between, and when it will be out of limits
  light FILE…    print the beam diameter and loss at each aperture, the spot, eyewear
  draw FILE      draw a station's tape (--station M2), a mirror's screws
                 (--screws M1), a station's rounds (--rounds M2) and its
                 visits (--visits M2), or the beam path (--path);
                 --out t.svg|t.png
  report FILE    write the record of the last visit, to print and keep: --out R.html, or
                 --markdown, or --pdf --out R.pdf; of another visit with --visit 2
  practice       write the workbook of a simulated machine: --seed 7 --level 1 to 5
                 --out p.alignbook.yaml; then print the burnt tapes of its blank
                 marks with --fire FILE, what came of them with --compare FILE, and
                 at the end your way beside the shortest with --closing FILE
  schema         print the JSON Schema of the format, for other editors
  server --stdio run the language server, for any editor with the Language Server Protocol

  --json         one line of JSON per file (check, next, care, sessions,
                 light)
  --brief        what to do now on a small screen (next)
  --mark near=2r4d
                 a mark by the stop of its tape, or by its number (add)
  --yes          steps without marks are done (add)
  --by NAME      who signs off (add)
  --round 2      an earlier round of the session (draw)
  --behind       view from behind, looking against the beam (draw)
  --theme dark   light, dark or contrast (draw)
  --paper letter A4 or letter, of a PDF (report; default A4)
  --visit 2      which visit, as sessions counts them from 1 (report)
  --help, --version

Answers of new: --name heron, --tube rear-left, --units mm, --travel "900 x 600",
--screws 3, --empty-corner upper-right, --locks nut, --nozzle "4 x 45" (or none,
unknown), --plumb 12 (or none). It asks for those that are not given, in lines of
standard input.

- as FILE reads standard input, --out - writes standard output. A folder stands
for the workbooks in it and below. A file that --out names is written whole or
stays as it was. Exit of check: 0 no errors, 1 errors
or what --fail-on names, 2 bad usage or an
unreadable file; of format --check 1 where a file would change. Exit of the others: 0 done, 2 bad usage, an unreadable file, or
nothing written. A .png and a .pdf are made by an installed Chromium.
`;
