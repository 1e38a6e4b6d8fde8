// The exhaust beat, to be heard: noise that swells as the flow through the nozzle does.

function makeBeat() {
  const SECONDS = 4;
  let audio = null;
  let source = null;
  let beat = null;
  const says = el("span", { class: "ws-quiet" });
  const hear = button("Hear the beat", () => (source ? stop() : play()), { class: "ws-small" });
  const root = el("div", { class: "ws-search", hidden: true, "aria-label": "Exhaust beat" }, hear, says);

  function stop() {
    source?.stop();
    source = null;
    setText(hear, "Hear the beat");
  }

  // A jet's noise grows faster than its flow; the square is enough for the ear.
  function samples(rate) {
    const made = new Float32Array(Math.round(SECONDS * rate));
    const { flow, turns } = beat;
    const most = Math.max(...flow);
    let soft = 0;
    for (let i = 0; i < made.length; i += 1) {
      const at = ((i / rate) * turns * flow.length) % flow.length;
      const k = Math.floor(at);
      const now = flow[k] + (at - k) * (flow[(k + 1) % flow.length] - flow[k]);
      soft += 0.25 * (2 * Math.random() - 1 - soft); // a chimney lets little hiss through
      const ends = Math.min(1, (20 * Math.min(i, made.length - i)) / rate);
      made[i] = 0.5 * ends * (now / most) ** 2 * soft;
    }
    return made;
  }

  function play() {
    if (!beat) return;
    try {
      audio ||= new AudioContext();
      audio.resume();
      const sound = audio.createBuffer(1, Math.round(SECONDS * audio.sampleRate), audio.sampleRate);
      sound.getChannelData(0).set(samples(audio.sampleRate));
      source = audio.createBufferSource();
      source.buffer = sound;
      source.connect(audio.destination);
      source.onended = () => stop();
      source.start();
      setText(hear, "Silence");
    } catch {
      setText(says, "This browser makes no sound.");
      source = null;
    }
  }

  return {
    root,
    show(now) {
      if (!now && source) stop();
      beat = now || null;
      show(root, Boolean(now));
      if (now) setText(says, now.says);
    },
  };
}
