// The sizes of a chapter: name, box, unit, and a thin line to drag.

function makeSizes(desk) {
  const main = el("div", { class: "ws-main" });
  const groups = el("div", { class: "ws-groups" });
  const root = el(
    "section",
    { class: "ws-sizes", "aria-label": "Sizes" },
    el("h2", { text: "Sizes" }),
    main,
    groups,
  );
  const rows = new Map(); // by path
  const open = new Map(); // groups that the builder has unfolded or folded
  let laid = "";

  function layOut(sizes) {
    const focus = document.activeElement?.closest?.("[data-path]")?.dataset.path;
    const kind = document.activeElement?.type;
    rows.clear();
    main.replaceChildren(...sizes.main.map(row));
    groups.replaceChildren(...sizes.groups.map((one) => group(one)));
    if (focus && rows.has(focus) && root.isConnected) {
      const again = rows.get(focus).root.querySelector(kind === "range" ? "[type=range]" : ".ws-box");
      again?.focus({ preventScroll: true });
    }
  }

  function row(about) {
    const made = makeRow(about, desk);
    rows.set(about.path, made);
    return made.root;
  }

  function group(about, depth = 0) {
    const count = about.path.endsWith(":rest") ? `${about.count} more` : String(about.count);
    const wrong = anyWrong(about);
    const body = el("div", { class: "ws-group-body" });
    const details = el(
      "details",
      { class: "ws-group", "data-group": about.path },
      el(
        "summary",
        {},
        `${about.title}\u00a0`,
        el("span", { class: "ws-count", text: `(${count})` }),
      ),
      body,
    );
    if (about.kinds.length) body.append(kindChooser(about, desk));
    body.append(...about.rows.map(row));
    body.append(...about.groups.map((one) => group(one, depth + 1)));
    if (about.act) body.append(button(about.act.says, () => desk.send({ do: about.act.do }), { class: "ws-small" }));
    if (about.more) {
      body.append(button("One more", () => {
        // the new one is to be filled in: it opens, and the one before it makes room
        const count = about.groups.length;
        if (count) open.set(`${about.more}.${count - 1}`, false);
        open.set(`${about.more}.${count}`, true);
        desk.send({ do: "more", path: about.more });
      }, { class: "ws-small" }));
    }
    if (about.fewer) body.append(button("Take this one away", () => desk.send({ do: "fewer", path: about.fewer }), { class: "ws-small" }));
    details.open = wrong || (open.get(about.path) ?? about.kinds.length > 0);
    details.addEventListener("toggle", () => open.set(about.path, details.open));
    return details;
  }

  return {
    root,
    show(sizes) {
      const now = shape(sizes);
      if (now !== laid) {
        laid = now;
        layOut(sizes);
      } else eachRow(sizes, (one) => rows.get(one.path).update(one));
    },
    forget() {
      laid = null; // a sheet without sizes has the shape ""
    },
    light(paths) {
      for (const [path, made] of rows) made.root.classList.toggle("ws-lit", paths.includes(path));
      const first = rows.get(paths.find((path) => rows.has(path)));
      if (!first) return;
      for (let up = first.root.parentElement; up && up !== root; up = up.parentElement) {
        if (up.tagName === "DETAILS") up.open = true;
      }
      first.root.scrollIntoView({ block: "nearest" });
    },
  };
}

function eachRow(sizes, act) {
  sizes.main.forEach(act);
  const walk = (group) => {
    group.rows.forEach(act);
    group.groups.forEach(walk);
  };
  sizes.groups.forEach(walk);
}

function anyWrong(group) {
  return group.rows.some((row) => row.wrong) || group.groups.some(anyWrong);
}

// Rows are made once and then only told what is new, so that a dragged handle or a box being
// typed in is never pulled from under the hand.
function shape(sizes) {
  const words = [];
  const row = (one) => words.push(one.path, one.kind, one.items?.length ?? "", one.line ? "l" : "", one.suggest ? "s" : "");
  sizes.main.forEach(row);
  const walk = (group) => {
    words.push(group.path, group.kind, group.title, group.more, group.fewer);
    group.rows.forEach(row);
    group.groups.forEach(walk);
    words.push(")");
  };
  sizes.groups.forEach(walk);
  return words.join("|");
}

function kindChooser(about, desk) {
  const id = newId("kind");
  const choice = el(
    "select",
    { id, class: "ws-box ws-wide", on: { change: () => desk.send({ do: "choose", path: about.path, kind: choice.value }) } },
    ...about.kinds.map((one) => el("option", { value: one.kind, text: one.label })),
  );
  choice.value = about.kind;
  return el("div", { class: "ws-row ws-kind" }, el("label", { for: id, class: "ws-name", text: "Kind" }), choice);
}

function makeRow(about, desk) {
  let now = about;
  let dragging = false;
  const id = newId("size");
  const name = el("button", {
    type: "button", class: "ws-name", id, "aria-expanded": "false", text: about.label,
    title: "Note, help, bought part",
  });
  const lock = el("span", { class: "ws-lock", text: "bought", title: "Settled by a part already bought" });
  if (about.main && about.group) name.append(el("small", { text: about.group }));
  const head = el("div", { class: "ws-row-head" }, name, lock);
  const wrong = el("p", { class: "ws-wrong", role: "alert", id: newId("wrong") });
  const typed = el("p", { class: "ws-typed" });
  const more = el("div", { class: "ws-more", hidden: true });
  const root = el("div", { class: "ws-row", "data-path": about.path }, head);
  const boxes = [];
  let range = null;
  let triangle = null;
  let suggestion = null;

  const changing = (is) => desk.changing(is ? now : null);
  const edit = (path, value) => desk.send({ do: "edit", path, value });

  if (about.kind === "choice") {
    const choice = el(
      "select",
      { class: longest(about.choices) > 16 ? "ws-box ws-wide ws-full" : "ws-box ws-wide", "aria-labelledby": id, on: { change: () => edit(now.path, choice.value) } },
      ...(about.optional ? [el("option", { value: "", text: "unknown" })] : []),
      ...about.choices.map((word) => el("option", { value: word, text: word })),
    );
    // words that the box beside the name would cut off stand under it
    (longest(about.choices) > 16 ? root : head).append(choice);
    boxes.push({ node: choice, set: (row) => (choice.value = row.text) });
  } else if (about.kind === "yes/no") {
    const box = el("input", { type: "checkbox", class: "ws-box ws-tick", "aria-labelledby": id, on: { change: () => edit(now.path, box.checked) } });
    head.append(box);
    boxes.push({ node: box, set: (row) => (box.checked = row.text === "yes") });
  } else if (about.kind === "several") {
    const several = el("div", { class: "ws-several" });
    about.items.forEach((item, index) => {
      const box = textBox(`${about.label}, ${index + 1}`, (text) => edit(item.path, text));
      if (about.words) box.node.classList.add("ws-words");
      several.append(box.node);
      boxes.push({ node: box.node, set: (row) => box.set(row.items[index].text, row.items[index].wrong) });
    });
    if (about.open) {
      several.append(button("one more", () => desk.send({ do: "more", path: now.path }), { class: "ws-small" }));
      if (about.items.length > about.least) several.append(button("one fewer", () => desk.send({ do: "fewer", path: now.items[now.items.length - 1].path }), { class: "ws-small" }));
    }
    head.append(el("span", { class: "ws-unit", text: about.unit }));
    root.append(several);
  } else {
    const box = textBox(null, (text) => edit(now.path, text));
    box.node.setAttribute("aria-labelledby", id);
    box.node.setAttribute("aria-describedby", wrong.id);
    if (about.kind === "text") box.node.classList.add("ws-wide", "ws-words");
    box.node.addEventListener("focus", () => changing(true));
    box.node.addEventListener("blur", () => changing(false));
    const unit = el("span", { class: "ws-unit", text: about.unit });
    head.append(box.node);
    if (about.kind !== "text") head.append(unit);
    boxes.push({
      node: box.node,
      set(row) {
        box.set(row.text, row.wrong);
        box.node.classList.toggle("ws-long", row.text.length > 7);
        box.node.placeholder = row.optional ? "unknown" : "";
        setText(unit, row.unit);
      },
    });
    if (about.line) addLine();
  }

  function addLine() {
    range = el("input", { type: "range", class: "ws-range", "aria-label": about.label });
    triangle = el("span", { class: "ws-triangle", "aria-hidden": "true" });
    const slide = (going_on) => {
      desk.send({ do: "slide", path: now.path, number: Number(range.value), going_on, first: !dragging });
      dragging = going_on;
      fill();
    };
    range.addEventListener("input", () => {
      changing(true);
      slide(true);
    });
    range.addEventListener("change", () => slide(false));
    range.addEventListener("focus", () => changing(true));
    range.addEventListener("blur", () => changing(false));
    root.append(el("div", { class: "ws-line" }, range, triangle));
  }

  function fill() {
    const share = (Number(range.value) - Number(range.min)) / (Number(range.max) - Number(range.min) || 1);
    range.style.setProperty("--at", String(share));
  }

  if (about.suggest) {
    suggestion = button("", () => edit(now.path, now.suggest.text), { class: "ws-suggest" });
    root.append(suggestion);
  }
  root.append(typed, wrong, more);
  name.addEventListener("click", () => {
    if (more.hidden) more.replaceChildren(...furtherOf(now, desk));
    more.hidden = !more.hidden;
    name.setAttribute("aria-expanded", String(!more.hidden));
  });

  function update(row) {
    now = row;
    for (const box of boxes) box.set(row);
    show(lock, row.fixed);
    const said = row.wrong?.says || row.items?.find((item) => item.wrong)?.wrong.says || "";
    setText(wrong, said);
    show(wrong, said !== "");
    setText(typed, row.typed ? `typed as ${row.typed}` : "");
    show(typed, row.typed !== "");
    root.dataset.level = row.level;
    if (suggestion) {
      setText(suggestion, `suggested ${row.suggest.text}: ${row.suggest.why}`);
      suggestion.disabled = row.suggest.same;
      suggestion.title = row.suggest.same ? "" : "Take this";
    }
    if (range && row.line && !dragging) {
      range.min = row.line.low;
      range.max = row.line.high;
      range.step = row.line.step;
      range.value = row.line.at;
      range.setAttribute("aria-valuetext", `${row.text} ${row.unit}`);
      fill();
    }
    if (triangle && row.line) {
      const at = row.suggest?.at ?? null;
      const share = at === null ? -1 : (at - row.line.low) / (row.line.high - row.line.low);
      show(triangle, share >= 0 && share <= 1);
      triangle.style.setProperty("--at", String(share));
    }
  }
  update(about);
  return { root, update };
}

const longest = (words) => Math.max(0, ...words.map((word) => word.length));

function textBox(label, take) {
  let last = "";
  const node = el("input", {
    type: "text", class: "ws-box", "aria-label": label, autocomplete: "off", spellcheck: "false",
    maxlength: 120, inputmode: "text",
  });
  const typing = (is) => (is ? (node.dataset.typing = "yes") : delete node.dataset.typing);
  node.addEventListener("input", () => typing(node.value !== last));
  node.addEventListener("change", () => {
    typing(false);
    if (node.value === last) return;
    last = node.value;
    take(node.value);
  });
  node.addEventListener("keydown", (event) => {
    if (event.key === "Enter") node.dispatchEvent(new Event("change"));
    if (event.key === "Escape") {
      node.value = last;
      typing(false);
    }
  });
  return {
    node,
    set(text, wrong) {
      const wanted = wrong ? wrong.text : text;
      node.setAttribute("aria-invalid", String(Boolean(wrong)));
      if (node.dataset.typing) return; // what a hand is typing stays
      last = wanted;
      if (node.value !== wanted) node.value = wanted;
    },
  };
}

// What unfolds under a name: one line of help, a note, and whether a bought part settles it.
function furtherOf(row, desk) {
  const noteId = newId("note");
  const note = el("textarea", { id: noteId, class: "ws-note", rows: 2, maxlength: 2000, value: row.note,
    on: { change: () => desk.send({ do: "note", path: row.path, text: note.value }) } });
  const bought = el("input", { type: "checkbox", checked: row.fixed,
    on: { change: () => desk.send({ do: "fix", path: row.path, settled: bought.checked }) } });
  return [
    row.help ? el("p", { class: "ws-help", text: row.help }) : null,
    el("label", { class: "ws-bought" }, bought, " settled by a part already bought"),
    el("label", { for: noteId, class: "ws-help", text: "Why so (your note)" }),
    note,
  ].filter(Boolean);
}
