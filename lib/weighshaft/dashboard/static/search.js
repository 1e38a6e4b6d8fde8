// A search under way: a button that begins it, how far it has come, and what it has found.

function makeSearch(desk) {
  const PACE = 400; // ms between two looks at how far it has come
  const SEARCH = {
    begin: ["Search for the best places", "search"],
    take: ["Take the best places", "take_found"],
    bar: "Gears tried",
    poll: "searching",
    stop: "stop_search",
  };
  let words = SEARCH;
  const begin = button(words.begin[0], () => desk.send({ do: words.begin[1] }));
  const stop = button("Stop", () => {
    stopping = true;
    show(stop, false);
    setText(says, "Stopping …");
    desk.send({ do: words.stop });
  }, { class: "ws-small" });
  const take = button(words.take[0], () => desk.send({ do: words.take[1] }));
  const bar = el("progress", { max: 1, "aria-label": words.bar });
  const says = el("span", { class: "ws-search-says", role: "status", "aria-live": "polite" });
  const root = el("div", { class: "ws-search", hidden: true }, begin, bar, stop, says, take);
  let timer = null;
  let stopping = false;

  function look() {
    timer = null;
    if (!root.isConnected) return;
    desk.send({
      do: words.poll,
      then: (content) => {
        if (!content.search) return;
        if (content.search.running) showState(content.search);
        else desk.send({ do: "look" });
      },
    });
  }

  function showState(now) {
    words = now.words || SEARCH;
    setText(begin, words.begin[0]);
    setText(take, words.take[0]);
    bar.setAttribute("aria-label", words.bar);
    stopping = stopping && now.running;
    show(begin, now.may && !now.running);
    show(bar, now.running);
    show(stop, now.running && !stopping);
    show(take, now.takes);
    bar.value = now.total ? now.tried / now.total : 0;
    setText(says, stopping ? "Stopping …" : now.says);
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
