"use strict";
const at = (id) => document.getElementById(id);
let state = { sheets: [], findings: [], version: 0 };
let shown = "", digest = "", mode = "fit", zoom = 1, natural = 1;
const digests = new Map();

// Where the window is looked at stays in its address, so that it is found again.
const wanted = () => decodeURIComponent(location.hash.slice(1));

async function load(path) {
  const answer = await fetch(path, { cache: "no-store" });
  if (!answer.ok) throw new Error(await answer.text());
  return answer;
}

async function refresh() {
  const before = new Map(state.sheets.map((s) => [s.id, s.digest]));
  state = await (await load("state")).json();
  document.title = (state.job || "job") + " - copingset";
  at("job").textContent = state.job || "";
  const many = (n, one) => n + " " + one + (n === 1 ? "" : "s");
  at("tally").textContent = many(state.errors, "error") + ", " + many(state.holds, "hold") + ", " + many(state.notes, "note");
  at("said").textContent = state.problem || (state.stale ? "The job has errors: these sheets are those of before." :
    "drawn in " + state.whole_ms + " ms, this sheet in " + state.first_ms + " ms, " + many(state.changed, "sheet") + " changed");
  at("sheet").classList.toggle("stale", state.stale);
  listSheets(before);
  listFindings();
  if (!state.sheets.some((s) => s.id === shown)) {
    const first = state.sheets.find((s) => s.id === wanted()) || state.sheets[0];
    if (first) await show(first.id);
  } else {
    await draw(shown);
  }
  document.body.dataset.version = state.version;
}

function listSheets(before) {
  const list = at("sheets"), word = at("filter").value.replace(/^\//, "").toLowerCase();
  list.replaceChildren();
  for (const s of state.sheets) {
    if (word && !(s.number + " " + s.title).toLowerCase().includes(word)) continue;
    const li = document.createElement("li");
    li.dataset.id = s.id;
    li.tabIndex = -1;
    if (s.held) li.classList.add("held");
    if (before && before.size && before.get(s.id) !== s.digest) li.classList.add("changed");
    if (s.id === shown) li.setAttribute("aria-current", "true");
    for (const text of [s.number, s.title]) {
      const span = document.createElement("span");
      span.textContent = text;
      li.append(span);
    }
    li.addEventListener("click", () => show(s.id));
    list.append(li);
  }
}

function listFindings() {
  const list = at("findings");
  list.replaceChildren();
  state.findings.forEach((f, i) => {
    const li = document.createElement("li");
    li.className = f.severity;
    li.tabIndex = -1;
    li.dataset.i = i;
    const add = (tag, cls, text) => {
      if (!text) return null;
      const e = document.createElement(tag);
      e.className = cls;
      e.textContent = text;
      li.append(e, " ");
      return e;
    };
    add("b", "", f.severity);
    add("span", "where", f.file ? f.file + (f.line ? ":" + f.line : "") : "");
    add("div", "", f.what + (f.why ? ", " + f.why : ""));
    add("div", "mend", f.mend);
    const sheet = f.sheet && state.sheets.find((s) => s.id === f.sheet);
    if (sheet) {
      const to = add("a", "to", "sheet " + sheet.number);
      to.href = "#" + encodeURIComponent(sheet.id);
      to.addEventListener("click", (e) => { e.preventDefault(); e.stopPropagation(); show(sheet.id); });
    }
    li.addEventListener("click", () => open(f));
    list.append(li);
  });
}

async function show(id) {
  shown = id;
  history.replaceState(null, "", "#" + encodeURIComponent(id));
  for (const li of at("sheets").children) {
    if (li.dataset.id === id) {
      li.setAttribute("aria-current", "true");
      li.classList.remove("changed");
      li.scrollIntoView({ block: "nearest" });
    } else li.removeAttribute("aria-current");
  }
  digest = "";
  await draw(id);
  at("paper").scrollTo(0, 0);
}

// The sheet is drawn again only if it is another one.
async function draw(id) {
  const s = state.sheets.find((q) => q.id === id);
  const now = digests.get(id) || (s && s.digest);
  if (!s || (digest && digest === now)) return;
  const text = await (await load("sheet/" + encodeURIComponent(id))).text();
  if (id !== shown) return;
  const doc = new DOMParser().parseFromString(text, "image/svg+xml");
  const svg = document.importNode(doc.documentElement, true);
  natural = svg.viewBox.baseVal && svg.viewBox.baseVal.width ? svg.viewBox.baseVal.height / svg.viewBox.baseVal.width : 1;
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  at("sheet").replaceChildren(svg);
  digest = now;
  size();
  document.body.dataset.sheet = id;
  document.body.dataset.digest = digest;
}

function size() {
  const room = at("paper"), wide = room.clientWidth - 32, high = room.clientHeight - 32;
  let w = wide;
  if (mode === "fit") w = Math.min(wide, high / natural);
  if (mode === "free") w = zoom * wide;
  zoom = w / wide;
  at("sheet").style.width = Math.round(w) + "px";
  at("scale").textContent = Math.round(100 * zoom) + " %";
}

function scaled(by) {
  const room = at("paper");
  const x = (room.scrollLeft + room.clientWidth / 2) / room.scrollWidth, y = (room.scrollTop + room.clientHeight / 2) / room.scrollHeight;
  mode = "free";
  zoom = Math.min(8, Math.max(.2, zoom * by));
  size();
  room.scrollTo(x * room.scrollWidth - room.clientWidth / 2, y * room.scrollHeight - room.clientHeight / 2);
}

async function open(f) {
  if (!f.file) { if (f.sheet) show(f.sheet); return; }
  if (f.sheet) show(f.sheet);
  let text;
  try { text = await (await load("file?name=" + encodeURIComponent(f.file))).text(); } catch (e) { text = e.message; }
  at("file").textContent = f.file + (f.line ? ", line " + f.line : "");
  const box = at("lines");
  box.replaceChildren();
  text.split("\n").forEach((line, i) => {
    const div = document.createElement("div");
    div.dataset.n = i + 1;
    div.textContent = line;
    if (i + 1 === f.line) div.className = "here";
    box.append(div);
  });
  at("text").showModal();
  const here = box.querySelector(".here");
  if (here) here.scrollIntoView({ block: "center" });
}

function step(by) {
  const ids = [...at("sheets").children].map((li) => li.dataset.id);
  if (!ids.length) return;
  const i = ids.indexOf(shown);
  show(ids[Math.min(ids.length - 1, Math.max(0, by === Infinity ? ids.length - 1 : by === -Infinity ? 0 : i + by))]);
}

function stepFinding(by) {
  const all = [...at("findings").children], i = all.indexOf(document.activeElement);
  const next = all[Math.min(all.length - 1, Math.max(0, i + by))];
  if (next) next.focus();
}

document.addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey || e.altKey || document.querySelector("dialog[open]")) return;
  const inField = e.target === at("filter"), inFindings = at("findings").contains(e.target);
  if (e.key === "Escape") { at("filter").value = ""; listSheets(); at("paper").focus(); return; }
  if (inField) {
    if (e.key === "Enter" && at("sheets").firstChild) { show(at("sheets").firstChild.dataset.id); at("paper").focus(); }
    return;
  }
  if (inFindings) {
    const f = state.findings[e.target.dataset.i];
    if (e.key === "ArrowDown") { stepFinding(1); e.preventDefault(); return; }
    if (e.key === "ArrowUp") { stepFinding(-1); e.preventDefault(); return; }
    if (e.key === "Enter" && f) { open(f); e.preventDefault(); return; }
    if (e.key === "o" && f && f.sheet) { show(f.sheet); return; }
  }
  const keys = {
    n: () => step(1), j: () => step(1), PageDown: () => step(1), p: () => step(-1), k: () => step(-1), PageUp: () => step(-1),
    Home: () => step(-Infinity), End: () => step(Infinity), "+": () => scaled(1.25), "=": () => scaled(1.25), "-": () => scaled(.8),
    0: () => { mode = "fit"; size(); }, w: () => { mode = "wide"; size(); }, "/": () => at("filter").focus(),
    f: () => { const first = at("findings").firstChild; if (first) first.focus(); }, "?": () => at("keys").showModal(),
  };
  if (keys[e.key]) { keys[e.key](); e.preventDefault(); }
});

at("filter").addEventListener("input", () => listSheets());
at("larger").addEventListener("click", () => scaled(1.25));
at("smaller").addEventListener("click", () => scaled(.8));
at("fit").addEventListener("click", () => { mode = "fit"; size(); });
at("wide").addEventListener("click", () => { mode = "wide"; size(); });
at("help").addEventListener("click", () => at("keys").showModal());
at("shut").addEventListener("click", () => at("text").close());
at("shut2").addEventListener("click", () => at("keys").close());
addEventListener("resize", size);
addEventListener("hashchange", () => { if (wanted() !== shown && state.sheets.some((s) => s.id === wanted())) show(wanted()); });

const events = new EventSource("events");
let queue = Promise.resolve();
events.onmessage = (m) => {
  const e = JSON.parse(m.data);
  if (e.kind === "sheet") {
    digests.set(e.sheet, e.digest);
    if (e.sheet === shown) queue = queue.then(() => draw(shown)).catch(() => {});
    return;
  }
  digests.clear();
  queue = queue.then(refresh).catch((x) => { at("said").textContent = x.message; });
};
events.onerror = () => { at("said").textContent = "The program has ended: start copingset view again."; };
at("paper").focus();
