// The builder's own workshop: which lists are in use, kept by this browser for every design.

function makeWorkshop(desk) {
  let largest = 0;
  const says = el("p", { class: "ws-quiet ws-shop-says", role: "status" });
  const use = button("Use the lists of your workshop", () => desk.send({ do: "use_workshop" }), { class: "ws-small" });
  const back = button("Use the lists of this design", () => desk.send({ do: "use_lists_of_design" }), { class: "ws-small" });
  const forget = button("Forget my workshop", () => desk.send({ do: "forget_workshop" }));
  const file = el("input", { type: "file", accept: ".json,application/json", hidden: true, "aria-label": "Workshop file",
    on: { change: () => bring(file, { largest, what: "workshop", act: "open_workshop" }, desk) } });
  const root = el("section", { class: "ws-shop", "aria-label": "Your workshop", hidden: true },
    el("div", { class: "ws-shop-use" }, says, use, back),
    el("div", { class: "ws-buttons" },
      button("Keep as my workshop", () => desk.send({ do: "keep_workshop" })),
      button("Save workshop file", () => desk.send({ do: "save_workshop" })),
      button("Open workshop file", () => file.click()),
      forget),
    file);
  return {
    root,
    show(now) {
      show(root, Boolean(now));
      if (!now) return;
      largest = now.largest;
      setText(says, now.says);
      show(use, now.use);
      show(back, now.back);
      show(forget, now.kept);
    },
  };
}

// What this browser keeps of it goes by address, like the design, but for every page there.
const WORKSHOP_KEY = "weighshaft:workshop";

function keptWorkshop() {
  try {
    return localStorage.getItem(WORKSHOP_KEY) || "";
  } catch {
    return "";
  }
}

function keepWorkshop(text) {
  try {
    if (text) localStorage.setItem(WORKSHOP_KEY, text);
    else localStorage.removeItem(WORKSHOP_KEY);
    return true;
  } catch {
    return false;
  }
}
