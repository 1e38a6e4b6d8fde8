// Small makers of elements.  Text always goes in as text: nothing that a builder typed, or
// that came in a file, is ever read as markup.

const SVG = "http://www.w3.org/2000/svg";
const MATHML = "http://www.w3.org/1998/Math/MathML";

function el(tag, props = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === "on") {
      for (const [event, heard] of Object.entries(value)) made.addEventListener(event, heard);
    } else if (name === "text") made.textContent = value;
    else if (name === "value" || name === "checked" || name === "disabled") made[name] = value;
    else made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...children.filter((child) => child !== null && child !== undefined));
  return made;
}

function svgEl(tag, attributes = {}, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== null && value !== "") made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}

function button(text, act, props = {}) {
  return el("button", { type: "button", text, on: { click: act }, ...props });
}

let lastId = 0;
function newId(word) {
  lastId += 1;
  return `ws-${word}-${lastId}`;
}

function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

function show(node, shown) {
  node.hidden = !shown;
}

// Mathematics comes from our own relations only; even so nothing but plain MathML is let in.
function mathematics(text) {
  const parsed = new DOMParser().parseFromString(text, "application/xml").documentElement;
  return parsed.namespaceURI === MATHML ? plainMath(parsed) : document.createTextNode("");
}

const MATH_ATTRIBUTES = ["display", "stretchy", "fence", "form", "mathvariant", "accent", "width"];

function plainMath(node) {
  if (node.nodeType === Node.TEXT_NODE) return document.createTextNode(node.nodeValue);
  if (node.nodeType !== Node.ELEMENT_NODE || node.namespaceURI !== MATHML) {
    return document.createTextNode("");
  }
  const made = document.createElementNS(MATHML, node.localName);
  for (const name of MATH_ATTRIBUTES) {
    if (node.hasAttribute(name)) made.setAttribute(name, node.getAttribute(name));
  }
  for (const child of node.childNodes) made.append(plainMath(child));
  return made;
}

function whenSaid(seconds) {
  const then = new Date(seconds * 1000);
  const today = new Date().toDateString() === then.toDateString();
  const time = then.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  return today ? time : `${then.toLocaleDateString()} ${time}`;
}
