// The sheet itself: tabs along the top, the chapter, the title block at the foot.

const KEPT_FORMAT = 1;

function makePage(model) {
  const alone = model.get("alone");
  const KEY = `weighshaft:${KEPT_FORMAT}:${location.pathname}`;
  const query = alone ? "" : new URLSearchParams(location.search).get("design") || "";
  let view = null;
  let pieces = [];

  const desk = {
    send: (message) => link.send(message),
    light,
    changing(row) {
      pictures.changing(row ? wordsOf(row.path, row.label) : []);
    },
    download: () => link.send({ do: "download" }),
    paper: () => link.send({ do: "paper" }),
    sorry: (text) => tell(text, { bad: true }),
  };
  const link = makeLink(model, replied, () => show(lostBar, true), () => show(lostBar, false));

  const tabs = el("nav", { class: "ws-tabs", "aria-label": "Chapters" });
  const subTabs = el("nav", { class: "ws-tabs ws-subtabs", "aria-label": "What follows from this chapter", hidden: true });
  const notice = el("div", { class: "ws-notice", role: "status", "aria-live": "polite", hidden: true });
  const lostBar = el("div", { class: "ws-lost", role: "alert", hidden: true },
    "Connection lost; your design is saved in this browser. ", button("Reload", () => location.reload()));
  const sizes = makeSizes(desk);
  const pictures = makePictures(desk);
  const margin = makeMargin(desk);
  const search = makeSearch(desk);
  const workshop = makeWorkshop(desk);
  const beat = makeBeat();
  const asking = makeAsking(desk);
  pictures.top.after(workshop.root, search.root, beat.root, asking.root);
  const whole = makeWhole(desk);
  const body = el("main", { class: "ws-body" }, el("p", { class: "ws-quiet ws-wait", text: "Laying out the sheet …" }));
  const block = makeBlock(desk, alone);
  const paper = makePaper(() => {
    paper.hide();
    show(sheet, true);
  });
  const sheet = el("div", { class: "ws-sheet" }, alone ? null : tabs, alone ? null : subTabs, lostBar, notice, body, block.root);
  const root = el("div", { class: alone ? "ws ws-alone" : "ws ws-page", lang: "en" }, sheet, paper.root);
  block.lightOn(root);
  root.addEventListener("keydown", shortcuts);

  function replied(content, buffers, answered) {
    if (content.view) {
      const numbers = floats(buffers);
      render(content.view, numbers, answered.going_on === true);
      notePaint(answered);
    }
    if (content.sorry) tell(content.sorry, { bad: true });
    else if (content.view?.says) tell(content.view.says);
    if (content.workshop !== undefined) {
      const kept = keepWorkshop(content.workshop);
      if (!kept) tell("This browser keeps nothing: save the workshop file instead.", { bad: true });
      else if (content.workshop && !content.view?.says) tell("Kept in this browser as your workshop; every design opened here takes its lists.");
    }
    if (content.download) saveFile(content.download);
    if (content.archive && buffers?.[0]) gather(content.archive, buffers[0]);
    if (content.paper) {
      paper.show(content.paper, floats(buffers));
      show(sheet, false);
    }
    answered.then?.(content);
  }

  // a file larger than the line takes comes in pieces, each asked for when the one before is there
  function gather({ name, type, start, size }, piece) {
    if (!start) pieces = [];
    pieces.push(piece);
    const next = start + piece.byteLength;
    if (next < size) desk.send({ do: "take_drawings", start: next });
    else {
      saveFile({ name, parts: pieces, type });
      pieces = [];
    }
  }

  function render(now, numbers, goingOn) {
    const turned = !view || view.chapter !== now.chapter;
    view = now;
    if (turned) {
      pictures.crank.stop();
      sizes.forget();
      margin.forget();
      body.replaceChildren(...(now.whole ? whole.nodes : [sizes.root, pictures.root, margin.root]));
      body.dataset.chapter = now.chapter;
      for (const column of body.children) column.scrollTop = 0;
    }
    if (now.whole) whole.show(now);
    else {
      sizes.show(now.sizes);
      pictures.show(now, numbers, goingOn);
      search.show(now.search);
      workshop.show(alone ? null : now.shop);
      beat.show(now.beat);
      asking.show(now.asks);
      margin.show(now);
    }
    showTabs(now.head, now.chapter);
    block.show(now.head);
    if (now.keep && !alone) keep(now.keep);
  }

  // Chapters along the top; under the one in hand, those that follow from it.
  function showTabs(head, chapter) {
    const group = head.tabs.find((one) => one.key === chapter)?.within || chapter;
    const all = (key) => head.tabs.filter((one) => one.key === key || one.within === key);
    const main = head.tabs.filter((one) => !one.within);
    fillTabs(tabs, main, (one) => one.key === group, (one) => all(one.key), true);
    const under = all(group);
    fillTabs(subTabs, under.length > 1 ? under : [], (one) => one.key === chapter, (one) => [one], false);
    show(subTabs, under.length > 1);
  }

  function fillTabs(row, entries, isCurrent, counted, numbered) {
    const keys = entries.map((one) => one.key).join();
    if (row.dataset.keys !== keys) {
      row.dataset.keys = keys;
      row.replaceChildren(...entries.map((one, index) => el("button",
        { type: "button", class: "ws-tab", "data-chapter": one.key, on: { click: () => link.send({ do: "go", chapter: one.key }) } },
        numbered ? el("span", { class: "ws-tab-number", text: String(index + 1) }) : null,
        el("span", { class: "ws-tab-word", text: one.tab }), el("span", { class: "ws-tab-count" }))));
    }
    entries.forEach((one, index) => {
      const tab = row.children[index];
      const sum = (level) => counted(one).reduce((total, each) => total + each[level], 0);
      const [stop, check] = [sum("stop"), sum("check")];
      const count = tab.querySelector(".ws-tab-count");
      setText(count, stop + check ? String(stop + check) : "");
      count.classList.toggle("ws-tab-stop", stop > 0);
      tab.title = stop + check ? `${stop} stop, ${check} check` : "";
      if (isCurrent(one)) tab.setAttribute("aria-current", "page");
      else tab.removeAttribute("aria-current");
    });
  }

  // A finding lights the sizes and the parts that it is about.
  function light(about) {
    if (about.chapter !== view.chapter) {
      link.send({ do: "go", chapter: about.chapter, then: () => lightHere(about) });
    } else lightHere(about);
  }

  function lightHere(about) {
    sizes.light(about.fields);
    pictures.light(about.fields.flatMap((path, index) => wordsOf(path, about.labels[index] || "")));
  }

  function tell(text, { bad = false, act = null } = {}) {
    notice.setAttribute("role", bad ? "alert" : "status");
    notice.classList.toggle("ws-bad", bad);
    notice.replaceChildren(el("span", { text }), ...(act ? [act] : []), button("Close", () => show(notice, false), { class: "ws-small" }));
    show(notice, true);
    clearTimeout(tell.timer);
    if (!bad && !act) tell.timer = setTimeout(() => show(notice, false), 6000);
  }

  function shortcuts(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const act = key === "s" ? "save" : key === "y" || (key === "z" && event.shiftKey) ? "redo" : key === "z" ? "undo" : null;
    // a box that is being typed in has an undo of its own
    if (!act || (act !== "save" && (event.target.dataset?.typing || event.target.tagName === "TEXTAREA"))) return;
    event.preventDefault();
    if (document.activeElement?.matches?.("input[type=text], textarea")) document.activeElement.blur();
    link.send({ do: act });
  }

  // --- what the browser keeps ---------------------------------------------------------------

  function keep(what) {
    try {
      localStorage.setItem(KEY, JSON.stringify({ format: KEPT_FORMAT, from: query, at: Date.now(), ...what }));
    } catch {
      // a browser that keeps nothing still works; the shelf and downloads remain
    }
  }

  function keptBefore() {
    try {
      const found = JSON.parse(localStorage.getItem(KEY) || "null");
      return found && found.format === KEPT_FORMAT && typeof found.design === "string" ? found : null;
    } catch {
      return null;
    }
  }

  function setAside(word) {
    try {
      const text = localStorage.getItem(KEY);
      if (text) localStorage.setItem(`${KEY}:${word}`, text);
    } catch {
      // nothing to set aside where nothing is kept
    }
  }

  function begin() {
    const kept = alone ? null : keptBefore();
    const message = { do: "hello" };
    if (!alone) message.workshop = keptWorkshop();
    const returns = kept && (kept.from || "") === query;
    if (returns) Object.assign(message, { kept: kept.design, saved_as: kept.saved_as || "", unit: kept.unit || "", chapter: kept.chapter || "", lists: kept.lists || "" });
    else if (query) {
      if (kept) setAside("before");
      message.sample = query;
    }
    if (returns) {
      message.then = (content) => {
        if (content.sorry) setAside("refused");
        else {
          const afresh = button("Start afresh", () => {
            setAside("before");
            show(notice, false);
            link.send({ do: "afresh", sample: query });
          }, { class: "ws-small" });
          tell(`“${content.view.head.name}” came back as this browser had kept it.`, { act: afresh });
        }
      };
    }
    link.send(message);
  }

  begin();
  return { root, close: () => { pictures.crank.stop(); link.close(); } };
}

function floats(buffers) {
  const raw = buffers && buffers[0];
  if (!raw) return new Float32Array();
  const view = raw.buffer ? raw : new DataView(raw);
  return new Float32Array(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));
}

function saveFile({ name, text, parts = [text], type = "application/json" }) {
  const url = URL.createObjectURL(new Blob(parts, { type }));
  const link = el("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

// The title block: design, scale, units, when saved, undo and redo, findings.
function makeBlock(desk, alone) {
  const cells = {};
  const cell = (key, word, ...content) => {
    cells[key] = el("span", { class: "ws-cell-text" }, ...content);
    return el("div", { class: `ws-cell ws-cell-${key}` }, el("span", { class: "ws-cell-word", text: word }), cells[key]);
  };
  const unit = (word, name) => button(word, () => desk.send({ do: "unit", unit: word }), { class: "ws-switch", "aria-label": name });
  const units = { mm: unit("mm", "millimetres"), in: unit("in", "inches") };
  const day = button("day", () => setLight("day"), { class: "ws-switch" });
  const evening = button("evening", () => setLight("evening"), { class: "ws-switch" });
  const undo = button("Undo", () => desk.send({ do: "undo" }), { class: "ws-switch" });
  const redo = button("Redo", () => desk.send({ do: "redo" }), { class: "ws-switch" });
  const save = button("Save", () => desk.send({ do: "save" }), { class: "ws-switch" });
  const root = el("footer", { class: "ws-block" },
    cell("design", "Design"), cell("scale", "Scale"), cell("units", "Units", units.mm, units.in),
    cell("light", "Light", day, evening), cell("saved", "Saved"), cell("undo", "Steps", undo, redo), cell("findings", "Findings"));
  const when = el("span");
  cells.saved.append(when, ...(alone ? [] : [save]));
  let lit = null;
  let unsaved = 0;

  function setLight(light, remember = true) {
    lit.dataset.light = light;
    day.setAttribute("aria-pressed", String(light === "day"));
    evening.setAttribute("aria-pressed", String(light === "evening"));
    try {
      if (remember) localStorage.setItem("weighshaft:light", light);
    } catch {
      // the choice simply does not outlast the visit
    }
  }

  return {
    root,
    lightOn(node) {
      lit = node;
      let light = null;
      try {
        light = localStorage.getItem("weighshaft:light");
      } catch {
        light = null;
      }
      const dark = matchMedia("(prefers-color-scheme: dark)").matches;
      setLight(light === "day" || light === "evening" ? light : dark ? "evening" : "day", false);
    },
    show(head) {
      setText(cells.design, head.name);
      setText(cells.scale, head.scale);
      for (const [word, node] of Object.entries(units)) node.setAttribute("aria-pressed", String(head.unit === word));
      undo.disabled = !head.undoes;
      redo.disabled = !head.redoes;
      undo.title = head.undoes ? `Undo ${head.undoes} (Ctrl+Z)` : "Nothing to undo";
      redo.title = head.redoes ? `Redo ${head.redoes} (Ctrl+Y)` : "Nothing to redo";
      if (head.unsaved !== undefined) unsaved = head.unsaved;
      const changed = unsaved ? `${unsaved} change${unsaved === 1 ? "" : "s"}` : "";
      setText(when, head.saved_at ? [whenSaid(head.saved_at), changed].filter(Boolean).join(", ") : changed ? `${changed}, not saved` : "not yet");
      const total = (level) => head.tabs.reduce((sum, one) => sum + one[level], 0);
      setText(cells.findings, total("stop") + total("check") ? `${total("stop")} stop · ${total("check")} check` : "none");
      cells.findings.classList.toggle("ws-tab-stop", total("stop") > 0);
    },
  };
}

export default {
  render({ model, el: host }) {
    const page = makePage(model);
    host.append(page.root);
    return () => page.close();
  },
};
