// The margin: findings and the working behind the figures.

const MOST_NAMED = 4; // sizes under a finding; all of them light up when it is pressed
const LEVEL_WORDS = { stop: "Stop", check: "Check", fine: "Fine" };

function makeMargin(desk) {
  const findings = el("div", { class: "ws-findings" });
  const working = el("div", { class: "ws-working" });
  const workingHead = el("h2", { text: "Working" });
  const root = el(
    "section",
    { class: "ws-margin", "aria-label": "Findings and working" },
    el("h2", { text: "Findings" }),
    findings,
    workingHead,
    working,
  );
  let finesOpen = false;
  const workings = new Map();

  function fold(fines) {
    if (fines.length < 3) return fines.map((one) => finding(one, desk));
    const details = el(
      "details",
      { class: "ws-fines" },
      el("summary", { text: `Fine: ${fines.length} things` }),
      ...fines.map((one) => finding(one, desk)),
    );
    details.open = finesOpen;
    details.addEventListener("toggle", () => (finesOpen = details.open));
    return [details];
  }

  return {
    root,
    show(view) {
      const wanted = view.findings.filter((one) => one.level !== "fine");
      const fines = view.findings.filter((one) => one.level === "fine");
      const notes = [...wanted.map((one) => finding(one, desk)), ...fold(fines)];
      if (!notes.length) notes.push(el("p", { class: "ws-quiet", text: "Nothing to say against these sizes." }));
      findings.replaceChildren(...notes);
      showWorkings(view.workings);
    },
    forget() {
      workings.clear();
      working.replaceChildren();
    },
  };

  function showWorkings(list) {
    show(workingHead, list.length > 0);
    const labels = list.map((one) => one.label);
    if ([...workings.keys()].join("|") !== labels.join("|")) {
      workings.clear();
      for (const one of list) workings.set(one.label, makeWorking(one, desk));
      working.replaceChildren(...[...workings.values()].map((one) => one.root));
    }
    for (const one of list) workings.get(one.label).update(one);
  }
}

function finding(about, desk) {
  const parts = [
    el("strong", { class: "ws-level", text: LEVEL_WORDS[about.level] }),
    el("span", { class: "ws-says", text: about.says }),
  ];
  if (about.mend) parts.push(el("span", { class: "ws-mend", text: about.mend }));
  const labels = [...new Set(about.labels)];
  const named = labels.length > MOST_NAMED ? [...labels.slice(0, MOST_NAMED - 1), `and ${labels.length - MOST_NAMED + 1} more`] : labels;
  const sourced = named.join(", ").toLowerCase();
  const small = [sourced, about.source].filter(Boolean).join("; ");
  if (small) parts.push(el("small", { text: small }));
  const note = el("button", { type: "button", class: "ws-finding-note", on: { click: () => desk.light(about) } }, ...parts);
  const box = el("div", { class: `ws-finding ws-${about.level}` }, note);
  if (about.change) {
    const { path, text, says } = about.change;
    box.append(button(says, () => desk.send({ do: "edit", path, value: text }), { class: "ws-do" }));
  }
  return box;
}

function makeWorking(about, desk) {
  const result = el("span", { class: "ws-result" });
  const body = el("div", { class: "ws-math" });
  const details = el(
    "details",
    {},
    el("summary", {}, el("span", { text: about.label }), result),
    body,
  );
  let shown = "";
  details.addEventListener("toggle", () => {
    desk.send({ do: "unfold", working: about.label, shown: details.open });
  });
  return {
    root: details,
    update(now) {
      setText(result, now.result);
      if (!now.math) return;
      const text = now.math.join("");
      if (text === shown) return;
      shown = text;
      const lines = now.math.map((one) => el("p", {}, mathematics(one)));
      if (!lines.length) lines.push(el("p", { text: "This working cannot be written out." }));
      body.replaceChildren(...lines, el("p", {}, `= ${now.result}`), el("small", { text: now.source }));
    },
  };
}
