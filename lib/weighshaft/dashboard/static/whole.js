// The whole design on one page: files, leading particulars, findings, notes, changes.

function makeWhole(desk) {
  const left = el("section", { class: "ws-sizes ws-files", "aria-label": "Files" });
  const middle = el("section", { class: "ws-picture ws-particulars", "aria-label": "Leading particulars" });
  const right = el("section", { class: "ws-margin", "aria-label": "Findings, notes and changes" });
  const open = new Set();
  const drawings = makeDrawings(desk);

  function show(view) {
    const { whole, head } = view;
    left.replaceChildren(...filesOf(whole.files, head, desk, drawings.root));
    drawings.show(whole.drawings);
    middle.replaceChildren(...particularsOf(whole, head, desk, open));
    right.replaceChildren(...remarksOf(whole, desk));
  }
  return { nodes: [left, middle, right], show };
}

// The shop drawings and the builder's book: made in the kernel beside the page, then handed over
// as one file.
function makeDrawings(desk) {
  const PACE = 500; // ms between two looks at how far they have come
  const making = (words, what) => button(words, () => {
    awaited = true;
    stopping = false;
    desk.send({ do: "draw", what, then: told });
  });
  const begin = [making("Drawings (ZIP)", "drawings"), making("Book (PDF)", "book.pdf"), making("Book (HTML)", "book.html")];
  const stop = button("Stop", () => {
    stopping = true;
    desk.send({ do: "stop_drawing", then: told });
  }, { class: "ws-small" });
  const again = button("Save again", () => desk.send({ do: "take_drawings" }), { class: "ws-small" });
  const bar = el("progress", { max: 1, "aria-label": "Made so far" });
  const says = el("span", { class: "ws-search-says", role: "status", "aria-live": "polite" });
  const root = el("div", { class: "ws-search ws-drawings" }, ...begin, bar, stop, again, says);
  let awaited = false;
  let stopping = false;
  let timer = null;

  function told(content) {
    if (content.drawings) showState(content.drawings);
  }

  function look() {
    timer = null;
    desk.send({ do: "drawing", then: told });
  }

  function showState(now) {
    begin.forEach((one) => show(one, !now.running));
    show(bar, now.running);
    show(stop, now.running && !stopping);
    show(again, now.ready);
    bar.value = now.total ? now.number / now.total : 0;
    setText(says, now.running && stopping ? "Stopping …" : now.says);
    clearTimeout(timer);
    timer = now.running ? setTimeout(look, PACE) : null;
    if (!now.running && awaited) {
      awaited = false;
      if (now.ready) desk.send({ do: "take_drawings" });
    }
  }
  return { root, show: showState };
}

function filesOf(files, head, desk, drawings) {
  const name = el("input", { type: "text", class: "ws-box ws-words ws-full", id: newId("name"), maxlength: 120, value: head.name,
    on: { change: () => desk.send({ do: "rename", name: name.value }) } });
  const copy = el("input", { type: "text", class: "ws-box ws-words ws-full", id: newId("copy"), maxlength: 80, value: files.saved_as || head.name });
  const upload = el("input", { type: "file", accept: ".json,application/json", class: "ws-upload", id: newId("upload"),
    on: { change: () => bring(upload, { largest: files.largest, what: "design", act: "upload" }, desk) } });
  const saved = head.saved_at
    ? `Saved as “${head.saved_as}”, ${whenSaid(head.saved_at)}.`
    : "Not saved on the shelf yet; this browser keeps it meanwhile.";
  const list = (items, act, words) => items.length
    ? el("ul", { class: "ws-list" }, ...items.map((one) => el("li", {}, button(one.name || one.key, () => act(one.key), { class: "ws-link" }), one.saved ? el("small", { text: whenSaid(one.saved) }) : null)))
    : el("p", { class: "ws-quiet", text: words });
  return [
    el("h2", { text: "Design" }),
    el("label", { class: "ws-help", for: name.id, text: "Name of the engine" }), name,
    el("p", { class: "ws-quiet ws-saved", text: saved }),
    el("div", { class: "ws-buttons" },
      button("Save", () => desk.send({ do: "save" }), { class: "ws-primary" }),
      button("Download", () => desk.download()),
      button("Duplicate", () => desk.send({ do: "duplicate" })),
      button("Printable page", () => desk.paper())),
    drawings,
    el("label", { class: "ws-help", for: copy.id, text: "Save under another name" }),
    el("div", { class: "ws-beside" }, copy, button("Save as", () => desk.send({ do: "save_as", name: copy.value }))),
    el("label", { class: "ws-help", for: upload.id, text: "Open a design file of yours (.loco.json)" }), upload,
    el("h2", { text: "On the shelf" }),
    list(files.designs, (key) => desk.send({ do: "open", key }), "Nothing has been saved here yet."),
    el("p", { class: "ws-quiet ws-folder", text: files.folder }),
    el("h2", { text: "Begin from a sample" }),
    list(files.samples, (key) => desk.send({ do: "sample", key }), "No samples are installed."),
  ];
}

function bring(input, { largest, what, act }, desk) {
  const file = input.files[0];
  input.value = "";
  if (!file) return;
  if (file.size > largest) {
    desk.sorry(`“${file.name}” has ${Math.round(file.size / 1000)} kB; a ${what} has a few kB, so this is not one. It was not sent.`);
    return;
  }
  file.text().then((text) => desk.send({ do: act, text }), () => desk.sorry(`“${file.name}” cannot be read.`));
}

const STATUS_WORDS = { stop: "stop", check: "check", bought: "bought", open: "open", decided: "" };

function particularsOf(whole, head, desk, open) {
  const nodes = [el("h2", { class: "ws-title", text: "Leading particulars" }), el("p", { class: "ws-engine", text: `${head.name}, ${head.scale}` })];
  const pages = el("div", { class: "ws-chapters" });
  for (const part of whole.particulars) {
    const rows = part.rows.map((row) => el("tr", {},
      el("th", { scope: "row" }, row.label, STATUS_WORDS[row.status] ? el("span", { class: `ws-status ws-status-${row.status}`, text: STATUS_WORDS[row.status] }) : null,
        row.group ? el("small", { text: row.group }) : null),
      el("td", { class: unitText(row).length > 16 ? "ws-num ws-wordy" : "ws-num", text: unitText(row) })));
    const table = (some) => el("table", { class: "ws-particular" }, el("tbody", {}, ...some));
    const box = el("section", { class: "ws-chapter" }, button(part.title, () => desk.send({ do: "go", chapter: part.key }), { class: "ws-chapter-name" }));
    box.append(table(rows.slice(0, Math.max(part.main, 1))));
    if (part.figures.length) {
      box.append(el("table", { class: "ws-particular ws-worked" }, el("caption", { text: "Worked out" }), el("tbody", {}, ...part.figures.map((one) => el("tr", {},
        el("th", { scope: "row", text: one.label }), el("td", { class: unitText(one).length > 16 ? "ws-num ws-wordy" : "ws-num", text: unitText(one) }))))));
    }
    const rest = rows.slice(Math.max(part.main, 1));
    if (rest.length) {
      const details = el("details", {}, el("summary", { text: `All the rest (${rest.length})` }), table(rest));
      details.open = open.has(part.key);
      details.addEventListener("toggle", () => (details.open ? open.add(part.key) : open.delete(part.key)));
      box.append(details);
    }
    pages.append(box);
  }
  nodes.push(pages);
  return nodes;
}

function unitText({ text, unit }) {
  if (!unit) return text;
  return unit === "°" ? `${text}°` : `${text} ${unit}`;
}

function remarksOf(whole, desk) {
  const worst = whole.findings.filter((one) => one.level !== "fine");
  const fines = whole.findings.length - worst.length;
  const nodes = [el("h2", { text: "Findings" }), el("div", { class: "ws-findings" }, ...worst.map((one) => finding(one, desk)))];
  if (!worst.length) nodes.push(el("p", { class: "ws-quiet", text: "No stop and nothing to check." }));
  if (fines) nodes.push(el("p", { class: "ws-quiet", text: `And ${fines} thing${fines === 1 ? "" : "s"} found fine, each in its chapter.` }));
  nodes.push(el("h2", { text: "Changed since the last save" }));
  nodes.push(whole.changes.length
    ? el("ul", { class: "ws-changes" }, ...whole.changes.map((one) => el("li", {}, el("strong", { text: one.label }), ` ${one.before} → ${one.after}`)))
    : el("p", { class: "ws-quiet", text: "Nothing." }));
  nodes.push(el("h2", { text: "Notes" }));
  nodes.push(whole.notes.length
    ? el("div", { class: "ws-notes" }, ...whole.notes.flatMap((one) => [el("p", { class: "ws-note-of", text: one.label }), el("p", { class: "ws-note-text", text: one.text })]))
    : el("p", { class: "ws-quiet", text: "None yet: press the name of a size to write why it is so." }));
  return nodes;
}
