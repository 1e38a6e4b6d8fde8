// The line to the desk: one request under way at a time.  While a slider is dragged only its
// newest place waits; places that were passed meanwhile are dropped, never queued.

const SILENCE = 12000; // ms without a reply after which the line is taken as lost
const BEAT = 10000;
const PATIENCE = 4000; // a greeting that nobody heard, the kernel not being there yet, is repeated

function makeLink(model, onReply, onLost, onFound) {
  const waiting = [];
  let underWay = null;
  let lost = false;
  let number = 0;
  let heard = performance.now();

  function send(message) {
    message.moved = performance.now();
    const last = waiting[waiting.length - 1];
    const same = last && last.do === "slide" && message.do === "slide" && last.path === message.path;
    if (same && last.going_on) {
      message.first = message.first || last.first;
      waiting[waiting.length - 1] = message;
    } else waiting.push(message);
    pump();
  }

  function pump() {
    // an answer outstanding shows on the page, for whoever waits for it
    const asking = Boolean(underWay || waiting.length);
    document.documentElement.toggleAttribute("data-asking", asking);
    if (underWay || !waiting.length) return;
    underWay = waiting.shift();
    underWay.id = ++number;
    underWay.sent = performance.now();
    post();
  }

  function post() {
    const { moved, sent, then, heard: _, ...plain } = underWay;
    model.send(plain);
  }

  function receive(content, buffers) {
    heard = performance.now();
    if (lost) {
      lost = false;
      onFound();
    }
    if (!underWay || content.id !== underWay.id) return;
    const answered = underWay;
    answered.heard = heard;
    underWay = null;
    pump(); // the kernel works at the newest place while this one is painted
    onReply(content, buffers, answered);
  }

  const watch = setInterval(() => {
    const now = performance.now();
    if (underWay?.do === "hello" && now - underWay.sent > PATIENCE && !underWay.again) {
      underWay.again = true;
      post();
    }
    if (underWay && now - underWay.sent > SILENCE && !lost) {
      lost = true;
      onLost();
    } else if (!underWay && now - heard > BEAT) send({ do: "beat" });
  }, 1000);

  model.on("msg:custom", receive);
  return {
    send,
    close() {
      clearInterval(watch);
      model.off("msg:custom", receive);
    },
  };
}

// How long a movement of the hand takes to be seen; read by the measuring test.
const paints = (globalThis.weighshaftPaints = globalThis.weighshaftPaints || []);

function notePaint(answered) {
  if (answered.do !== "slide") return;
  const { path, moved, sent, heard } = answered;
  const drawn = performance.now();
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      const seen = performance.now();
      paints.push({ path, ms: seen - moved, waited: sent - moved, asked: heard - sent, drew: drawn - heard, painted: seen - drawn });
      if (paints.length > 500) paints.shift();
    };
    port2.postMessage(null);
  });
}
