// Questions to the steam and its whole map: a button each, how far it has come, the answer.

function makeAsking(desk) {
  const PACE = 400; // ms between two looks at how far it has come
  const buttons = el("span", { class: "ws-asks" });
  const bar = el("progress", { max: 1, "aria-label": "Conditions marched" });
  const stop = button("Stop", () => {
    stopping = true;
    show(stop, false);
    setText(says, "Stopping …");
    desk.send({ do: "stop_asking" });
  }, { class: "ws-small" });
  const says = el("span", { class: "ws-search-says", role: "status", "aria-live": "polite" });
  const unsure = el("span", { class: "ws-search-says ws-quiet" });
  const take = button("Take the answer into the design", () => desk.send({ do: "take_answer" }));
  const root = el("div", { class: "ws-search ws-asking", hidden: true }, buttons, bar, stop, says, unsure, take);
  let keys = "";
  let timer = null;
  let stopping = false;

  function look() {
    timer = null;
    if (!root.isConnected || root.hidden) return;
    desk.send({
      do: "asking",
      then: (content) => {
        if (!content.asks) return;
        if (content.asks.running) showState(content.asks);
        else desk.send({ do: "look" });
      },
    });
  }

  function showState(now) {
    const wanted = now.buttons.map((one) => one.key).join();
    if (wanted !== keys) {
      keys = wanted;
      buttons.replaceChildren(...now.buttons.map((one) => button(one.text, () => desk.send({ do: "ask", what: one.key }), { "data-ask": one.key })));
    }
    stopping = stopping && now.running;
    show(buttons, !now.running);
    show(bar, now.running);
    show(stop, now.running && !stopping);
    bar.value = now.total ? now.done / now.total : 0;
    setText(says, stopping ? "Stopping …" : now.says);
    setText(unsure, now.uncertain ? `How sure: ${now.uncertain}` : "");
    setText(take, now.offer);
    show(take, Boolean(now.offer));
    clearTimeout(timer);
    timer = now.running ? setTimeout(look, PACE) : null;
  }

  return {
    root,
    show(now) {
      show(root, Boolean(now));
      if (now) showState(now);
      else clearTimeout(timer);
    },
  };
}
