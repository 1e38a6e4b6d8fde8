// The printable page: the whole design, black on white, a chapter a sheet.

const PAPER_WIDTH = 622; // of the drawings on a sheet; the printer scales it to the paper

function makePaper(close) {
  const pages = el("div", { class: "ws-paper-pages" });
  const print = button("Print", () => window.print(), { class: "ws-primary" });
  const root = el("div", { class: "ws-paper", hidden: true, role: "document", "aria-label": "Printable page" },
    el("div", { class: "ws-paper-bar" }, print, button("Back to the desk", close)), pages);

  return {
    root,
    show(paper, points) {
      pages.replaceChildren(...paper.chapters.map((one) => paperChapter(one, paper.head, points)));
      if (paper.notes.length) pages.append(paperNotes(paper.notes, paper.head));
      root.hidden = false;
      root.scrollTop = 0;
      print.focus();
    },
    hide() {
      root.hidden = true;
      pages.replaceChildren();
    },
  };
}

function paperChapter(chapter, head, points) {
  const drawings = chapter.pictures.filter((one) => one.kind === "scene" || one.kind === "chart").slice(0, 3);
  const figures = pictureFigures(drawings, points, PAPER_WIDTH, 0, false).map(({ node, drawn }) => {
    drawn.turn(40);
    return node;
  });
  const rows = chapter.rows.slice(0, Math.max(chapter.main, 6));
  const line = (one) => el("tr", {}, el("th", { scope: "row", text: one.label }), el("td", { class: "ws-num", text: unitText(one) }));
  const worst = chapter.findings.filter((one) => one.level !== "fine");
  const heed = el("div", { class: "ws-cautions" });
  showCautions(heed, chapter.cautions);
  return el("section", { class: "ws-paper-page" },
    el("h2", { text: chapter.title }), heed,
    el("div", { class: "ws-paper-body" },
      el("div", { class: "ws-paper-numbers" },
        el("table", { class: "ws-particular" }, el("caption", { text: "Decided" }), el("tbody", {}, ...rows.map(line))),
        chapter.figures.length ? el("table", { class: "ws-particular" }, el("caption", { text: "Worked out" }), el("tbody", {}, ...chapter.figures.map(line))) : null,
        ...worst.map((one) => el("p", { class: "ws-paper-finding" }, el("strong", { text: `${LEVEL_WORDS[one.level]}. ` }), `${one.says} ${one.mend}`))),
      el("div", { class: "ws-paper-drawings" }, ...figures)),
    paperBlock(head, chapter.title));
}

function paperNotes(notes, head) {
  return el("section", { class: "ws-paper-page" },
    el("h2", { text: "Notes" }),
    el("div", { class: "ws-notes" }, ...notes.flatMap((one) => [el("p", { class: "ws-note-of", text: one.label }), el("p", { class: "ws-note-text", text: one.text })])),
    paperBlock(head, "Notes"));
}

function paperBlock(head, title) {
  const cell = (word, text) => el("div", {}, el("span", { class: "ws-cell-word", text: word }), el("span", { text }));
  return el("footer", { class: "ws-paper-block" },
    cell("Design", head.name), cell("Scale", head.scale), cell("Sheet", title),
    cell("Saved", head.saved_at ? whenSaid(head.saved_at) : "not yet"), cell("Units", head.unit));
}
