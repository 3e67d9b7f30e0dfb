// Handles on a photo. What is dragged, tapped or nudged is written into the number fields, which are what the form sends.
const svg = (name, attributes) => {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
};

const numbers = text => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

/** The corners of a square to four points, by the projection that a photo makes: shares of width and height to pixels. */
function projection([a, b, c, d]) {
  const [dx1, dx2, dx3] = [b.x - c.x, d.x - c.x, a.x - b.x + c.x - d.x], [dy1, dy2, dy3] = [b.y - c.y, d.y - c.y, a.y - b.y + c.y - d.y];
  const whole = dx1 * dy2 - dx2 * dy1;
  const g = (dx3 * dy2 - dx2 * dy3) / whole, h = (dx1 * dy3 - dx3 * dy1) / whole;
  return (u, v) => {
    const w = g * u + h * v + 1;
    return {
      x: ((b.x - a.x + g * b.x) * u + (d.x - a.x + h * d.x) * v + a.x) / w,
      y: ((b.y - a.y + g * b.y) * u + (d.y - a.y + h * d.y) * v + a.y) / w,
    };
  };
}

function start(root) {
  const stage = root.querySelector(".stage"), frames = stage.querySelector(".frames"), handles = stage.querySelector(".handles");
  const tools = root.querySelector(".point-tools"), lens = tools.querySelector(".lens"), what = tools.querySelector(".point-what");
  const [width, height] = [Number(root.dataset.width), Number(root.dataset.height)];
  const quads = JSON.parse(root.dataset.quads), form = root.closest("form");
  const inputs = [...root.querySelectorAll("[data-place]")];
  const field = name => form.elements[name];
  const reach = 30;
  let current = inputs.find(input => numbers(input.value).length < 2) ?? inputs[0];

  const outline = input => {
    const n = numbers(input.value);
    return Array.from({ length: Math.floor(n.length / 2) }, (_, i) => ({ x: n[2 * i], y: n[2 * i + 1] }));
  };
  const middle = input => {
    const points = outline(input);
    if (points.length === 0) return null;
    return { x: points.reduce((sum, p) => sum + p.x, 0) / points.length, y: points.reduce((sum, p) => sum + p.y, 0) / points.length };
  };
  // Every change can be taken back, a whole drag or a run of nudges at a time.
  const past = [], undo = tools.querySelector("[data-undo]");
  let ran = null;
  const remember = run => {
    if (run !== null && run === ran) return;
    ran = run;
    past.push(inputs.map(input => input.value));
    if (past.length > 200) past.shift();
    undo.disabled = false;
  };
  const takeBack = () => {
    ran = null;
    past.pop()?.forEach((value, i) => { inputs[i].value = value; });
    undo.disabled = past.length === 0;
    draw();
  };
  const single = input => !quads.some(quad => quad.points.includes(input.name));
  const place = (input, to) => {
    const from = middle(input), inside = { x: Math.min(width - 1, Math.max(0, to.x)), y: Math.min(height - 1, Math.max(0, to.y)) };
    const points = from === null ? [inside] : outline(input).map(p => ({ x: p.x + inside.x - from.x, y: p.y + inside.y - from.y }));
    input.value = points.map(p => `${Math.round(p.x)}, ${Math.round(p.y)}`).join("  ");
    draw();
  };
  const perPixel = () => { const at = stage.getScreenCTM(); return at ? 1 / at.a : 1; };
  const toPhoto = event => new DOMPoint(event.clientX, event.clientY).matrixTransform(stage.getScreenCTM().inverse());

  function shapes() {
    const found = [];
    for (const quad of quads) {
      const corners = quad.points.map(name => middle(field(name)));
      if (corners.some(corner => corner === null)) continue;
      found.push({ points: corners, main: true });
      const at = projection(corners);
      let cells = quad.cells;
      if (quad.grid.length === 2) {
        const [columns, rows] = quad.grid.map(one => Number(field(one)?.value ?? one));
        if (!(columns >= 1 && columns <= 26 && rows >= 1 && rows <= 99)) continue;
        const edge = (1 - quad.share) / 2;
        cells = Array.from({ length: columns * rows }, (_, i) => {
          const [c, r] = [i % columns, Math.floor(i / columns)];
          return [[c + edge, r + edge], [c + 1 - edge, r + edge], [c + 1 - edge, r + 1 - edge], [c + edge, r + 1 - edge]]
            .map(([u, v]) => [u / columns, v / rows]);
        });
      }
      for (const cell of cells) found.push({ points: cell.map(([u, v]) => at(u, v)) });
    }
    const side = Number(field(root.dataset.side)?.value) || Math.round(Math.min(width, height) / 12);
    for (const input of inputs) {
      if (!single(input)) continue;
      const points = outline(input);
      if (points.length === 1) {
        const [{ x, y }] = points, h = side / 2;
        found.push({ points: [{ x: x - h, y: y - h }, { x: x + h, y: y - h }, { x: x + h, y: y + h }, { x: x - h, y: y + h }] });
      } else if (points.length > 2) found.push({ points });
    }
    return found;
  }

  function draw() {
    const unit = perPixel(), all = shapes().map(shape => shape.points.map(p => `${p.x.toFixed(1)},${p.y.toFixed(1)}`).join(" "));
    frames.replaceChildren(
      ...all.flatMap(points => [svg("polygon", { points, class: "under" }), svg("polygon", { points, class: "over" })]));
    for (const [input, handle] of marks) {
      const at = middle(input);
      handle.style.display = at === null ? "none" : "";
      if (at === null) continue;
      handle.setAttribute("class", input === current ? "handle now" : "handle");
      handle.setAttribute("transform", `translate(${at.x} ${at.y}) scale(${unit})`);
    }
    const at = middle(current) ?? { x: width / 2, y: height / 2 }, span = Math.max(width, height) / 14;
    lens.setAttribute("viewBox", `${at.x - span / 2} ${at.y - span / 2} ${span} ${span}`);
    lens.querySelector(".cross")
      .setAttribute("d", `M${at.x - span / 5} ${at.y}h${span * 2 / 5}M${at.x} ${at.y - span / 5}v${span * 2 / 5}`);
    lens.querySelector(".lens-frame").replaceChildren(...all.map(points => svg("polygon", { points, class: "over" })));
    const label = root.querySelector(`label[for="${current.id}"]`).textContent;
    const said = middle(current) === null ? `${label}: tap it` : label;
    if (what.textContent !== said) what.textContent = said;
    root.querySelector(".single").hidden = !single(current);
    names.value = current.name;
  }

  // One handle a place, made once: a finger's drag ends when what it touched is taken out of the page.
  const marks = new Map(inputs.map(input => {
    const group = svg("g", {}), text = svg("text", { y: 5 });
    text.textContent = input.dataset.place;
    group.dataset.name = input.name;
    // A ring with a free middle, so that the finger's target does not hide what lies under it.
    group.append(
      svg("circle", { r: reach, class: "grip" }),
      svg("circle", { r: 15, class: "under" }),
      svg("circle", { r: 15, class: "over" }),
      svg("circle", { r: 1.5, class: "dot" }),
      ...(single(input) ? [text] : []));
    return [input, group];
  }));
  handles.replaceChildren(...marks.values());

  const choose = input => { current = input; draw(); };
  const next = (step = 1) => { ran = null; choose(inputs[(inputs.indexOf(current) + step + inputs.length) % inputs.length]); };

  // A swatch that is not in the picture, or stands under another's name.
  const remove = () => {
    if (!single(current) || middle(current) === null) return;
    remember(null);
    current.value = "";
    draw();
  };
  const rename = to => {
    if (!single(current) || to === current) return;
    remember(null);
    [to.value, current.value] = [current.value, to.value];
    choose(to);
  };
  const names = root.querySelector("[data-rename]");
  names.append(...inputs.filter(single).map(input => new Option(input.dataset.place, input.name)));
  names.addEventListener("input", event => { event.stopPropagation(); rename(field(names.value)); });

  let drag = null;
  stage.addEventListener("pointerdown", event => {
    if (!event.isPrimary || event.button !== 0) return;
    const at = toPhoto(event), unit = perPixel();
    const near = inputs.map(input => ({ input, p: middle(input) }))
      .filter(one => one.p !== null)
      .map(one => ({ ...one, far: Math.hypot(one.p.x - at.x, one.p.y - at.y) / unit }))
      .sort((a, b) => a.far - b.far)[0];
    drag = near && near.far < reach ? { input: near.input, off: { x: near.p.x - at.x, y: near.p.y - at.y } } : { tap: true };
    drag.from = { x: event.clientX, y: event.clientY };
    if (drag.input) {
      choose(drag.input);
      stage.setPointerCapture(event.pointerId);
      event.preventDefault();
    }
  });
  // A finger that holds a handle must not scroll the page as well, or the drag is cut short.
  stage.addEventListener("touchstart", event => { if (drag?.input) event.preventDefault(); }, { passive: false });
  stage.addEventListener("pointermove", event => {
    if (drag === null) return;
    if (Math.hypot(event.clientX - drag.from.x, event.clientY - drag.from.y) > 6) drag.moved = true;
    if (drag.input && drag.moved) {
      remember(drag);
      const at = toPhoto(event);
      place(drag.input, { x: at.x + drag.off.x, y: at.y + drag.off.y });
    }
  });
  stage.addEventListener("pointerup", event => {
    if (drag?.tap && !drag.moved) {
      const fresh = middle(current) === null;
      remember(null);
      place(current, toPhoto(event));
      if (fresh) { const open = inputs.find(input => middle(input) === null); if (open) choose(open); }
    }
    drag = null;
  });
  stage.addEventListener("pointercancel", () => { drag = null; });

  const nudge = (x, y, far) => {
    const at = middle(current) ?? { x: width / 2, y: height / 2 };
    const step = Math.max(1, Math.round(Math.max(width, height) / (far ? 100 : 1200)));
    remember(current);
    place(current, { x: at.x + x * step, y: at.y + y * step });
  };
  const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  stage.setAttribute("tabindex", "0");
  stage.setAttribute("role", "application");
  stage.setAttribute("aria-label", `${stage.getAttribute("aria-label")}. Arrow keys move the chosen place, with Shift further; `
    + "Enter goes on to the next, with Shift back; Delete takes a swatch off the photo; Control and Z undo.");
  stage.addEventListener("keydown", event => {
    if (arrows[event.key]) nudge(...arrows[event.key], event.shiftKey);
    else if (event.key === "Enter") next(event.shiftKey ? -1 : 1);
    else if (event.key === "Delete" || event.key === "Backspace") remove();
    else if (event.key === "z" && (event.ctrlKey || event.metaKey)) takeBack();
    else return;
    event.preventDefault();
  });
  for (const button of tools.querySelectorAll("[data-by]"))
    button.addEventListener("click", () => nudge(...button.dataset.by.split(",").map(Number), false));
  tools.querySelector("[data-next]").addEventListener("click", () => next());
  root.querySelector("[data-remove]").addEventListener("click", remove);
  undo.addEventListener("click", takeBack);
  for (const input of inputs) { input.addEventListener("focus", () => choose(input)); input.addEventListener("input", draw); }
  form.addEventListener("input", draw);
  new ResizeObserver(draw).observe(stage);
  tools.hidden = false;
  draw();
}

for (const root of document.querySelectorAll("[data-point]")) start(root);
for (const spare of document.querySelectorAll("[data-without-script]")) spare.hidden = true;
