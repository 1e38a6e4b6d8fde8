// The crank under the hand: a line to drag, arrow keys, and Turn, which starts only when asked.

const TURN_SECONDS = 4;

function makeTurn(onTurn) {
  let theta = 40;
  let playing = null;
  const play = button("Turn", () => (playing ? stop() : start()), { class: "ws-turn" });
  const range = el("input", { type: "range", class: "ws-range", min: 0, max: 360, step: 1, "aria-label": "Crank angle",
    on: { input: () => { stop(); set(Number(range.value)); } } });
  const out = el("output", { class: "ws-theta" });
  const root = el("div", { class: "ws-crank" }, play, el("div", { class: "ws-line" }, range), out);

  function set(value) {
    theta = ((value % 360) + 360) % 360;
    if (value === 360) theta = 360;
    range.value = theta;
    range.style.setProperty("--at", String(theta / 360));
    const words = `${Math.round(theta)}°`;
    setText(out, words);
    range.setAttribute("aria-valuetext", `crank ${words} after front dead centre`);
    onTurn(theta);
  }

  function start() {
    setText(play, "Stop");
    let before = performance.now();
    const step = (now) => {
      set((theta + ((now - before) / 1000) * (360 / TURN_SECONDS)) % 360);
      before = now;
      playing = requestAnimationFrame(step);
    };
    playing = requestAnimationFrame(step);
  }

  function stop() {
    if (playing) cancelAnimationFrame(playing);
    playing = null;
    setText(play, "Turn");
  }

  return { root, stop, set, again: () => set(theta), turnBy: (degrees) => set((theta + degrees + 360) % 360), at: () => theta };
}
