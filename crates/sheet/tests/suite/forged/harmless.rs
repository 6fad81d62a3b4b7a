//! Arrangements as a clinic may want them: another order, other words, other sizes, parts left out,
//! lines, boxes and tables of its own.

use millrace_sheet::Template;

/// What of the shipped arrangement is replaced by what.
const CHANGES: [(&str, &str, &str); 42] = [
    (
        "other words over the boxes",
        "  set text(size: 9pt)\n  grid(\n    columns: (1fr, 106pt)",
        "  strong[In our theatre]\n  set text(size: 9pt)\n  grid(\n    columns: (1fr, 106pt)",
    ),
    (
        "other words to tick",
        "tick(labels.patient_says)",
        "tick[The patient says name, eye and operation]",
    ),
    (
        "a step more to tick",
        "tick(labels.lens_matches)",
        "tick(labels.lens_matches)\ntick[Antibiotic drawn up and labeled]",
    ),
    (
        "translated steps",
        "tick(labels.patient_says)",
        "tick[Patient nennt Namen und Auge]",
    ),
    (
        "steps in French",
        "tick(labels.eye_marked)",
        "tick[Œil marqué par l’opérateur]",
    ),
    (
        "steps in Greek",
        "tick(labels.eye_marked)",
        "tick[Σημειώθηκε το μάτι]",
    ),
    (
        "steps in Russian",
        "tick(labels.eye_marked)",
        "tick[Отмечен нужный глаз]",
    ),
    (
        "steps in Arabic",
        "tick(labels.eye_marked)",
        "tick(typed(\"تم تعليم العين\"))",
    ),
    (
        "steps in Hindi",
        "tick(labels.eye_marked)",
        "tick[आँख पर निशान लगाया गया]",
    ),
    (
        "translated headings",
        "title(data.labels.approach)",
        "title(\"Zugang und Verfahren\")",
    ),
    (
        "a heading without the label",
        "title(data.labels.findings)",
        "title(\"What else the rules found\")",
    ),
    (
        "an abbreviation",
        "tick(labels.patient_says)",
        "tick[Marked, e.g. over the brow, i.e. visibly]",
    ),
    (
        "numbered steps",
        "tick(labels.lens_matches)",
        "tick(labels.lens_matches)\n[1. Time out before the incision]\n[2. Count the instruments]",
    ),
    (
        "dashes and brackets",
        "tick(labels.eye_marked)",
        "tick[Eye marked – by whom (initials)]",
    ),
    (
        "letters of the approach larger",
        "set text(size: 9pt)\n    facts(data.approach)",
        "set text(size: 11pt)\n    facts(data.approach)",
    ),
    (
        "letters of the approach smaller",
        "set text(size: 9pt)\n    facts(data.approach)",
        "set text(size: 7pt)\n    facts(data.approach)",
    ),
    (
        "letters of the findings larger",
        "title(data.labels.findings)\n  set text(size: 7.3pt)",
        "title(data.labels.findings)\n  set text(size: 10pt)",
    ),
    (
        "letters of the findings smaller",
        "title(data.labels.findings)\n  set text(size: 7.3pt)",
        "title(data.labels.findings)\n  set text(size: 6pt)",
    ),
    (
        "measurements larger",
        "title(data.measurements.title)\n  set text(size: 7.3pt)",
        "title(data.measurements.title)\n  set text(size: 8.5pt)",
    ),
    (
        "formulas larger",
        "title(data.formulas.title)\n  set text(size: 7.3pt)",
        "title(data.formulas.title)\n  set text(size: 8.5pt)",
    ),
    (
        "steps larger",
        "let labels = data.labels\n  set text(size: 9pt)",
        "let labels = data.labels\n  set text(size: 11pt)",
    ),
    (
        "steps bold",
        "tick(labels.lens_matches)",
        "tick(strong(labels.lens_matches))",
    ),
    (
        "steps dark blue",
        "tick(labels.lens_matches)",
        "tick(text(fill: rgb(\"#102a60\"), labels.lens_matches))",
    ),
    (
        "wide letters",
        "let labels = data.labels\n  set text(size: 9pt)",
        "let labels = data.labels\n  set text(size: 9pt)\n  set text(tracking: 0.4pt)",
    ),
    (
        "lines farther apart",
        "let labels = data.labels\n  set text(size: 9pt)",
        "let labels = data.labels\n  set text(size: 9pt)\n  set par(leading: 6pt)",
    ),
    (
        "measurements behind formulas",
        "measurements(data), formulas(data),",
        "formulas(data), measurements(data),",
    ),
    (
        "measurements over formulas",
        "columns: if data.measurements.all == none { (1fr, 196pt) } else { (1fr, 1fr) },\n    column-gutter: 14pt,\n",
        "columns: (1fr,),\n    row-gutter: 6pt,\n",
    ),
    (
        "no formulas",
        "measurements(data), formulas(data),",
        "measurements(data), [],",
    ),
    (
        "no measurements",
        "measurements(data), formulas(data),",
        "[], formulas(data),",
    ),
    (
        "a wider gutter",
        "column-gutter: 14pt",
        "column-gutter: 24pt",
    ),
    (
        "no figures",
        "..data.figures.map(drawing),",
        "..data.figures.map(it => []),",
    ),
    (
        "figures to the left",
        "align: center + top,",
        "align: left + top,",
    ),
    (
        "figures under each other",
        "columns: data.figures.map(figure => figure.width * 1fr),",
        "columns: 1,",
    ),
    (
        "a lower sticker",
        "height: 70pt, stroke: 1.2pt",
        "height: 60pt, stroke: 0.8pt",
    ),
    (
        "a pale sticker",
        "height: 70pt, stroke: 1.2pt",
        "height: 70pt, fill: luma(245), stroke: 1.2pt",
    ),
    (
        "a line to write on",
        "line(length: 100%, stroke: 0.6pt))]\n    },",
        "line(length: 100%, stroke: 0.6pt))]\n      v(8pt)\n      line(length: 100%, stroke: (thickness: 0.6pt, dash: \"dotted\"))\n    },",
    ),
    (
        "a line between",
        "#let end(data) = {",
        "#let end(data) = {\n  line(length: 100%, stroke: 0.5pt + luma(40%))",
    ),
    (
        "findings before the measurements",
        "  evidence(data)\n  findings(data)",
        "  findings(data)\n  evidence(data)",
    ),
    ("no findings", "  findings(data)\n", ""),
    (
        "findings in one column",
        "columns: (1fr, 1fr),\n      column-gutter: 12pt,\n      first.join(), second.join(),",
        "columns: 1,\n      row-gutter: 4pt,\n      first.join(), second.join(),",
    ),
    (
        "ruled measurements",
        "align: (left, right, right),",
        "align: (left, right, right),\n      stroke: 0.4pt,\n      inset: 3pt,",
    ),
    (
        "striped formulas",
        "align: (left, right, right),",
        "align: (left, right, right),\n      fill: (_, y) => if calc.odd(y) { luma(244) },",
    ),
];

/// Written from nothing.
const WHOLE: [(&str, &str); 10] = [
    (
        "nothing at all",
        "#let middle(data) = []\n#let end(data) = []",
    ),
    (
        "the approach alone",
        "#import \"/shapes.typ\": facts\n#let middle(data) = facts(data.approach)\n#let end(data) = []",
    ),
    (
        "the figures alone",
        "#import \"/shapes.typ\": drawing\n#let middle(data) = data.figures.map(drawing).join()\n#let end(data) = []",
    ),
    (
        "the figures at the end",
        "#import \"/shapes.typ\": drawing\n#let middle(data) = []\n#let end(data) = grid(columns: 3, ..data.figures.map(drawing))",
    ),
    (
        "measurements as sentences",
        "#let middle(data) = for row in data.measurements.rows [#row.name #row.value, #row.method. ]\n#let end(data) = []",
    ),
    (
        "measurements as a list",
        "#let middle(data) = list(..data.measurements.rows.map(row => [#row.name #strong(row.value)]))\n#let end(data) = []",
    ),
    (
        "findings as terms",
        "#let middle(data) = []\n#let end(data) = for row in data.findings.rows [/ #row.id #row.title: #row.text]",
    ),
    (
        "a room over two pages",
        "#let middle(data) = for _ in range(70) [Words that go on and on, \\ ]\n#let end(data) = [The end]",
    ),
    (
        "a block that waits for the next page",
        "#let middle(data) = block(breakable: false, height: 500pt, [Words])\n#let end(data) = [The end]",
    ),
    (
        "a page of its own at the end",
        "#let middle(data) = [Words]\n#let end(data) = { colbreak(); [Notes]; for _ in range(9) { v(16pt); line(length: 100%) } }",
    ),
];

pub(super) fn variants() -> Vec<(&'static str, String)> {
    let shipped = Template::shipped_arrangement();
    let changed = CHANGES.iter().map(|(name, from, to)| {
        assert!(
            shipped.contains(from),
            "{name}: the shipped arrangement has no {from}"
        );
        (*name, shipped.replacen(from, to, 1))
    });
    let whole = WHOLE.iter().map(|(name, text)| (*name, (*text).to_owned()));
    changed.chain(whole).collect()
}
