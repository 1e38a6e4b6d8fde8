// The pictures of a chapter on the sheet, and what they light.

function makePictures(desk) {
  const holder = el("div", { class: "ws-pictures" });
  const figures = el("div", { class: "ws-figures" });
  const heading = el("h2", { class: "ws-title" });
  const subject = el("span", { class: "ws-subject" });
  const top = el("div", { class: "ws-heading" }, heading, subject);
  const heed = el("div", { class: "ws-cautions", role: "note", hidden: true });
  const root = el("section", { class: "ws-picture", "aria-label": "Picture" }, top, heed, holder);
  const none = el("p", { class: "ws-none", text: "Nothing can be drawn here as things stand; the findings say why." });
  const crank = makeTurn((theta) => drawn.forEach((one) => one.turn(theta)));
  let view = null;
  let points = new Float32Array();
  let drawn = [];
  let width = 0;
  let height = 0;
  let lit = [];
  let changing = [];
  let moreOpen = false;

  new ResizeObserver(() => {
    const now = Math.floor(holder.clientWidth);
    if (now > 0 && now !== width) {
      width = now;
      height = root.clientHeight;
      if (view) draw();
    }
  }).observe(holder);

  // Which figures are in sight; while a line is dragged the others wait until it rests.
  const hidden = new Set();
  const sight = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (isIntersecting) hidden.delete(Number(target.dataset.index));
      else hidden.add(Number(target.dataset.index));
    }
  });
  let figuresOf = [];

  function draw(goingOn = false) {
    if (!width) return;
    const same = goingOn && figuresOf.length === view.pictures.length;
    const waits = (index) => same && index > 0 && hidden.has(index);
    if (!same) hidden.clear();
    sight.disconnect();
    figuresOf = pictureFigures(view.pictures, points, width, height, true, (i) => (waits(i) ? figuresOf[i] : null));
    figuresOf.forEach((one, index) => {
      one.node.dataset.index = index;
      sight.observe(one.node);
    });
    drawn = figuresOf.map((one) => one.drawn).filter(Boolean);
    const nodes = figuresOf.map((one) => one.node);
    if (!nodes.length) nodes.push(none);
    const first = figuresOf.findIndex((one) => one.drawn?.angleAt && one.drawn.moves);
    if (first >= 0) {
      nodes.splice(first + 1, 0, crank.root);
      dragToTurn(figuresOf[first].drawn, crank);
    } else crank.stop();
    // the key figures stand right under the main picture
    nodes.splice(Math.min(first === 0 ? 2 : 1, nodes.length), 0, figures);
    arrange(nodes);
    crank.again();
    paintLights();
  }

  // A button or line that has the focus must not lose it because the drawing is new.
  function arrange(nodes) {
    const before = [...holder.children];
    const moved = nodes.some((node, i) => node !== before[i] && before.includes(node));
    if (before.length !== nodes.length || moved) holder.replaceChildren(...nodes);
    else nodes.forEach((node, i) => node !== before[i] && holder.replaceChild(node, before[i]));
  }

  function paintLights() {
    for (const { parts } of drawn) {
      for (const node of parts) {
        node.classList.toggle("ws-part-lit", named(node.dataset.part, lit));
        node.classList.toggle("ws-part-changed", named(node.dataset.part, changing));
      }
    }
  }

  function showFigures(list) {
    const term = (one) => el("li", { class: "ws-figure", title: one.help },
      el("span", { class: "ws-figure-name", text: one.label }),
      el("span", { class: "ws-figure-value", text: one.unit === "°" ? `${one.text}°` : one.text },
        one.unit && one.unit !== "°" ? el("span", { class: "ws-figure-unit", text: ` ${one.unit}` }) : null));
    const main = list.filter((one) => one.main);
    const rest = list.filter((one) => !one.main);
    const nodes = [];
    if (main.length) nodes.push(el("ul", { class: "ws-keys" }, ...main.map(term)));
    if (rest.length) {
      const details = el("details", { class: "ws-more-figures" }, el("summary", { text: `Further figures (${rest.length})` }), el("ul", { class: "ws-keys" }, ...rest.map(term)));
      details.open = moreOpen;
      details.addEventListener("toggle", () => (moreOpen = details.open));
      nodes.push(details);
    }
    figures.replaceChildren(...nodes);
  }

  return {
    root,
    top,
    crank,
    show(now, numbers, goingOn) {
      if (!view || view.chapter !== now.chapter) lit = [];
      view = now;
      points = numbers;
      setText(heading, now.title);
      setText(subject, now.pictures[0]?.kind === "table" ? "" : now.pictures[0]?.title || "");
      showCautions(heed, now.cautions);
      draw(goingOn);
      showFigures(now.figures);
    },
    light(words) {
      lit = words;
      paintLights();
    },
    changing(words) {
      changing = words;
      paintLights();
    },
  };
}

// What to heed stands above all else, and on paper too.
function showCautions(node, cautions) {
  const key = cautions.join("|");
  if (node.dataset.key !== key) {
    node.dataset.key = key;
    node.replaceChildren(el("strong", { text: "Heed first" }), el("ul", {}, ...cautions.map((text) => el("li", { text }))));
  }
  show(node, cautions.length > 0);
}

// The main picture takes the whole width; charts and lesser scenes stand two abreast.
function pictureFigures(pictures, points, width, tall, onSheet, before = () => null) {
  const half = width >= 600 ? Math.floor((width - 24) / 2) : width;
  const seen = tall > 300 ? tall : 700;
  const tallest = Math.max(220, Math.min(0.62 * seen, 620, width * 0.9));
  const wholes = wholeWidths(pictures, width);
  return pictures.map((picture, index) => {
    const kept = before(index);
    if (kept) return kept;
    if (picture.kind === "table") return { node: tableFigure(picture) };
    const whole = wholes[index];
    const wide = whole ? width : half;
    const drawn = picture.kind === "scene"
      ? drawScene(picture, points, wide, index === 0 ? tallest : whole ? Math.min(tallest, 300) : 290)
      : drawChart(picture, points, wide, picture.equal ? Math.min(wide, 340) : index === 0 ? 320 : 240);
    // the first picture's title stands in the heading of the chapter
    const caption = index === 0 && onSheet ? null : el("h3", { text: picture.title });
    const node = el("figure", { class: "ws-fig", "data-kind": picture.kind }, caption, drawn.root);
    node.style.width = `${wide}px`;
    // what is scrolled out of sight is neither laid out nor painted while a line is dragged
    if (index > 0) node.style.containIntrinsicSize = `${wide}px ${Number(drawn.root.getAttribute("height")) + 24}px`;
    return { node, drawn };
  });
}

function wholeWidths(pictures, width) {
  const wants = pictures.map((picture, index) => {
    if (index === 0 || width < 600 || picture.kind === "table") return true;
    if (picture.kind === "chart") return false;
    const [left, bottom, right, top] = picture.extent;
    const labels = picture.still.filter((one) => one.t === "label").length;
    return labels > 3 || (right - left) / Math.max(top - bottom, 1e-6) > 2.4;
  });
  // one that would stand alone in its row takes the row
  for (let i = 0; i < wants.length; i += 1) {
    if (wants[i]) continue;
    if (i + 1 < wants.length && !wants[i + 1]) i += 1;
    else wants[i] = !pictures[i].equal;
  }
  return wants;
}

const tables = new Map(); // by what stands in them: a table that did not change is not made anew

function tableFigure(table) {
  const key = JSON.stringify(table);
  if (!tables.has(key)) {
    if (tables.size > 40) tables.clear();
    tables.set(key, makeTable(table));
  }
  return tables.get(key);
}

function makeTable(table) {
  const numeric = table.columns.map((_, i) => i > 0 && table.rows.every((row) => !row[i] || row[i].number || row[i].text === ""));
  const heads = table.columns.map((text, i) => el("th", { scope: "col", class: numeric[i] ? "ws-num" : null, text }));
  const rows = table.rows.map((row) =>
    el("tr", {}, ...row.map((cell, i) => i === 0
      ? el("th", { scope: "row", text: cell.text })
      : el("td", { class: numeric[i] ? "ws-num" : null, text: cell.text }))));
  const caption = table.unit ? `${table.title} (lengths in ${table.unit === "in" ? "inches" : table.unit})` : table.title;
  return el("figure", { class: "ws-fig ws-fig-whole ws-table", "data-kind": "table" },
    el("div", { class: "ws-table-roll", tabindex: 0, role: "region", "aria-label": table.title },
      el("table", {}, el("caption", { text: caption }), el("thead", {}, el("tr", {}, ...heads)), el("tbody", {}, ...rows))),
    table.note ? el("p", { class: "ws-table-note", text: table.note }) : null);
}

function dragToTurn(drawn, crank) {
  drawn.root.classList.add("ws-turns");
  let last = null;
  drawn.root.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    last = drawn.angleAt(event);
    drawn.root.setPointerCapture(event.pointerId);
    crank.stop();
  });
  drawn.root.addEventListener("pointermove", (event) => {
    if (last === null) return;
    const now = drawn.angleAt(event);
    crank.turnBy(((now - last + 540) % 360) - 180);
    last = now;
  });
  for (const end of ["pointerup", "pointercancel"]) drawn.root.addEventListener(end, () => (last = null));
}

const plainWord = (text) => text.toLowerCase().replace(/[_\-,.]+/g, " ").replace(/\s+/g, " ").trim();

// The words under which a size may appear on a drawing: "motion.gear.eccentric_rod" is the
// eccentric rod, and the forward eccentric rod too.
function wordsOf(path, label) {
  const steps = path.split(".").filter((step) => !/^\d+$/.test(step));
  return [plainWord(steps[steps.length - 1] || ""), plainWord(label.split(",")[0])].filter((word) => word.length > 2);
}

function named(part, words) {
  const word = plainWord(part);
  return words.some((one) => one === word || (word.length > 3 && one.includes(word)) || (one.length > 3 && word.includes(one)));
}
