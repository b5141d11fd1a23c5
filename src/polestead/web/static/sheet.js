// The sheet: tip the array by hand, read a number's working, choose a habit, read the fortnight hour by hour.
// The browser turns what is drawn; every figure comes from the server's sums.  Without it links and the form do the same.
const by = (id) => document.getElementById(id);
const all = (what, of = document) => [...of.querySelectorAll(what)];
const say = (words) => { const place = by("announce"); if (place) place.textContent = words; };
const wideClass = () => (matchMedia("(max-width:767px)").matches ? "narrow" : matchMedia("(max-width:1100px)").matches ? "mid" : "wide");

// ---- the tilt ---------------------------------------------------------------------------------------------------
const scene = () => by(`scene-${wideClass()}`);
let tilt = NaN, spoken = "", busy = false, flying = null, wanted = null, held = false, view = "side", way = -1;

function limits() {
  const at = scene().dataset;
  return [Number(at.least), Number(at.steepest)];
}
function clamped(degrees) {
  const [least, steepest] = limits();
  if (degrees <= least) return least;
  return degrees >= steepest ? steepest : Math.round(degrees);
}

// Turn what is drawn; nothing is worked out here but where the ring goes.
function turn(degrees) {
  const svg = scene(), name = svg.dataset.width, group = by(`${name}-turn`);
  if (!group) return;
  const [x, y] = svg.dataset.hinge.split(" ").map(Number), far = Number(svg.dataset.radius), way = (degrees * Math.PI) / 180;
  group.setAttribute("transform", `rotate(${-degrees} ${x} ${y})`);
  by(`${name}-handle`).setAttribute("transform", `translate(${x + far * Math.cos(way)} ${y - far * Math.sin(way)})`);
}

function tip(degrees, quiet = true) {
  const to = clamped(degrees);
  if (to === tilt) { if (!quiet) toSay(); return; }
  way = Math.sign(to - tilt) || way;
  tilt = to;
  const told = kept(question(to));
  if (told) { showKept(told, { quiet }); return; }
  turn(to);
  for (const one of all(".drawn")) one.classList.add("waiting");
  ask({ quiet });
}

function query(more = {}, at = tilt) {
  const given = new URLSearchParams({ tilt: String(at), width: wideClass(), view, ...more });
  const day = by("day-field");
  if (day && day.value) given.set("day", day.value);
  return given;
}

// ---- what is told of a tilt ---------------------------------------------------------------------------------------
// The tilts beside the one that lies here are asked for before a key is pressed: the same sums, only sooner.  All of it belongs
// to the state of the file this page shows and is let go with it; what has lain a while is shown, and asked again.
const AHEAD = 3, MOST = 120, FRESH_MS = 10000;
const lying = new Map();  // by its question
let coming = null;  // the question asked ahead, and the promise of what is told
const question = (at) => `/draw?${query({}, at)}`;

function kept(asked) {
  const told = lying.get(asked);
  return told && String(told.serial) === document.body.dataset.serial ? told : null;
}
async function told(asked) {
  const reply = await fetch(asked);
  if (!reply.ok) return null;
  const found = await reply.json();
  found.at = performance.now();
  lying.delete(asked);
  if (found.sun) lying.set(asked, found);
  if (lying.size > MOST) lying.delete(lying.keys().next().value);
  return found;
}

// One request in flight; what is wanted meanwhile is asked when it is back, and only the latest of it.
async function ask(how) {
  if (busy) { wanted = { quiet: how.quiet && (wanted || flying).quiet }; return; }  // what is to be said is not lost to a quiet one
  busy = true;
  flying = how;
  const asked = question(tilt);
  try {
    const found = await (coming && coming.asked === asked ? coming.told : told(asked));
    if (found && (wanted || asked === question(tilt))) show(found, how);  // one that was at hand may have come between
    else if (found) settle(how);
  } catch { /* the frame says that the server is gone; what is drawn stays pencilled */ }
  busy = false;
  if (wanted) { const next = wanted; wanted = null; ask(next); } else ahead();
}

// One that is at hand is shown in the same breath; whatever else was wanted is past.
function showKept(found, how) {
  const loud = !how.quiet || (wanted && !wanted.quiet);
  wanted = null;
  show(found, { quiet: !loud });
  if (performance.now() - found.at > FRESH_MS) ask({ quiet: true });
  else if (!busy) ahead();
}

// The nearest that is not at hand, those first to which he is tipping; one after the other, and none while one is wanted.
async function ahead() {
  if (coming || busy || !scene()) return;
  const steps = [way, -way];
  for (let n = 2; n <= AHEAD; n++) steps.push(n * way);
  const next = steps.map((step) => question(clamped(tilt + step))).find((one) => one !== question(tilt) && !kept(one));
  if (!next) return;
  coming = { asked: next, told: told(next) };
  const found = await coming.told.catch(() => null);
  coming = null;
  if (found && found.sun && String(found.serial) === document.body.dataset.serial) ahead();
}

// Only what differs is touched.
const inside = new WeakMap();
function fill(id, drawn) {
  const group = by(id);
  if (!group || inside.get(group) === drawn) return;
  group.innerHTML = drawn;
  inside.set(group, drawn);
}
function write(id, words) { const one = by(id); if (one && one.textContent !== words) one.textContent = words; }

function show(told, how) {
  if (!wanted) tilt = told.tilt;
  const focus = document.activeElement && document.activeElement.closest ? document.activeElement.closest("a.number") : null;
  const key = focus && scene().contains(focus) ? focus.dataset.w : "";
  for (const [id, drawn] of Object.entries(told.groups)) fill(id, drawn);
  for (const [id, attributes] of Object.entries(told.attributes)) {
    const one = by(id);
    if (one) for (const [name, value] of Object.entries(attributes)) one.setAttribute(name, value);
  }
  for (const [id, words] of Object.entries(told.texts)) write(id, words);
  if (key) { const again = scene().querySelector(`a.number[data-w="${key}"]`); if (again) again.focus(); }
  scene().dataset.tilt = told.tilt;
  scene().dataset.drawn = String(performance.now());
  const field = by("tilt-field");
  if (field && field !== document.activeElement) field.value = told.tilt;
  write("step-tilt", `${Math.round(told.tilt)}°`);
  spoken = told.spoken;
  if (wanted) return;
  settle(how);
  if (!told.sun) setTimeout(() => ask({ quiet: true }), 1500);
}

function settle(how) {
  for (const one of all(".drawn.waiting")) one.classList.remove("waiting");
  if (!how.quiet) finish();
}

// The drawing for paper follows a moment after the one that is looked at.
let paperLater = 0;
async function paper() {
  try {
    const reply = await fetch(`/draw?${query({ whole: "1", width: "paper" })}`);
    if (reply.ok) by("for-paper").innerHTML = await reply.text();
  } catch { /* the frame says that the server is gone */ }
}

// What is asked is said when it is back, and not what was before it.
function toSay() { if (busy) wanted = { quiet: false }; else finish(); }

function finish() {
  clearTimeout(paperLater);
  paperLater = setTimeout(paper, 700);
  say(spoken);
  const here = new URL(location.href);
  here.searchParams.set("tilt", String(tilt));
  history.replaceState(history.state, "", here);
}

// Where a pointer is, as a tilt about the hinge.
function pointed(event) {
  const svg = scene(), box = svg.getBoundingClientRect(), [x, y] = svg.dataset.hinge.split(" ").map(Number);
  const scale = box.width / Number(svg.getAttribute("width"));
  return (Math.atan2(y - (event.clientY - box.top) / scale, (event.clientX - box.left) / scale - x) * 180) / Math.PI;
}

function hold(event) {
  const handle = event.target.closest(".handle"), band = event.target.closest(".band");
  if (!handle && !band) return;
  if (event.button) return;
  event.preventDefault();
  held = true;
  const ring = handle || by(`${scene().dataset.width}-handle`);
  ring.focus({ preventScroll: true });
  ring.setPointerCapture(event.pointerId);
  if (band) tip(pointed(event));
}
const STEPS = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 5, PageDown: -5 };
const editing = (at) => at && (at.matches("input:not([type=checkbox],[type=radio]),textarea,select,[contenteditable]"));

function pressed(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const at = event.target, onHandle = at.closest && at.closest(".handle");
  if (onHandle) {
    if (event.key in STEPS) { event.preventDefault(); tip(tilt + STEPS[event.key]); return; }
    if (event.key === "Home" || event.key === "End") { event.preventDefault(); tip(limits()[event.key === "Home" ? 0 : 1]); return; }
  }
  if (editing(at)) return;
  const stance = document.querySelector(`.stances a[aria-keyshortcuts="${CSS.escape(event.key)}"]`);
  if (stance && view === "side") { event.preventDefault(); tip(Number(stance.dataset.tilt), false); return; }
  if (event.key === "c" && !event.repeat && by("before-key")) lay(true);
}

// ---- the state before the last edit, held under this one ------------------------------------------------------------
async function lay(there) {
  const key = by("before-key");
  if (!key) return;
  key.setAttribute("aria-pressed", String(there));
  const dels = all(".cell del"), group = by(`${scene().dataset.width}-before`);
  if (!there) { if (group) group.innerHTML = ""; for (const one of dels) one.hidden = true; return; }
  const reply = await fetch(`/before?${query()}`);
  if (!reply.ok || key.getAttribute("aria-pressed") !== "true") return;
  const was = await reply.json();
  if (by(was.id)) by(was.id).innerHTML = was.group;
  was.answers.forEach((words, nth) => { if (dels[nth]) { dels[nth].textContent = words; dels[nth].hidden = false; } });
}

// ---- the slip of a number -----------------------------------------------------------------------------------------
let opener = "";
async function open(key, from) {
  const reply = await fetch(`/working/${encodeURIComponent(key)}?${query({ slip: "1" })}`);
  const slip = by("sheet-slip"), body = by("sheet-slip-body");
  if (reply.ok) body.innerHTML = await reply.text();
  else body.textContent = await reply.text();
  opener = from ? key : "";
  slip.hidden = false;
  by("sheet-doubts").hidden = wideClass() === "wide";
  body.scrollTop = 0;
  body.focus({ preventScroll: wideClass() !== "mid" });
  if (location.hash !== `#w-${key}`) history.replaceState({ opener }, "", `#w-${key}`);
}
function shut() {
  const slip = by("sheet-slip");
  if (!slip || slip.hidden) return false;
  slip.hidden = true;
  by("sheet-doubts").hidden = false;
  const here = new URL(location.href);
  here.hash = "";
  history.replaceState(null, "", here.pathname + here.search);
  const back = opener && all(`[data-w="${opener}"]`).find((one) => one.getClientRects().length);
  if (back) back.focus({ preventScroll: true });
  return true;
}

// ---- views ----------------------------------------------------------------------------------------------------------
async function swapView(which, focused = true) {
  view = which;
  by("view-field").value = which;
  const name = wideClass(), reply = await fetch(`/draw?${query({ whole: "1" })}`);
  if (!reply.ok) return;
  by(`for-${name}`).innerHTML = await reply.text();
  paper();
  person();
  const link = by(`for-${name}`).querySelector("a.view") || document.querySelector(".small a");
  if (!focused) return;
  if (link) link.focus({ preventScroll: true });
  say(scene().getAttribute("aria-label"));
}
function person() {
  const box = by("person-field");
  if (box) for (const one of all(".drawn")) one.classList.toggle("no-person", !box.checked);
}

// ---- habits ---------------------------------------------------------------------------------------------------------
let chosen = null, yearBusy = false, yearNext = null;
async function choose(nth) {
  if (yearBusy) { yearNext = nth; return; }
  yearBusy = true;
  const given = new URLSearchParams({ habit: nth, width: wideClass() });
  if (chosen !== null && chosen !== nth) given.set("before", chosen);
  const reply = await fetch(`/year?${given}`), plot = document.querySelector(`[data-year="${wideClass()}"]`);
  if (reply.ok) { plot.innerHTML = await reply.text(); plot.dataset.habit = nth; chosen = nth; }
  yearBusy = false;
  if (yearNext !== null) { const next = yearNext; yearNext = null; choose(next); }
}

// ---- the fortnight -----------------------------------------------------------------------------------------------------
let hours = null, hoursOf = "", hour = 0;
async function read(to) {
  if (!hours || hoursOf !== wideClass()) {
    const of = wideClass(), reply = await fetch(`/fortnight?width=${of}`);
    if (!reply.ok) return;
    hours = (await reply.json()).hours;
    hoursOf = of;
  }
  hour = Math.max(0, Math.min(hours.length - 1, to));
  const { x, y, top, base, words } = hours[hour], chart = by("fortnight"), mark = by(`fortnight-${hoursOf}-hour`);
  mark.innerHTML = `<path d="M${x} ${top}V${base}" stroke="var(--plumb)" stroke-width="1.5" fill="none"></path><circle cx="${x}" cy="${y}" r="5.5" fill="var(--paper)" stroke="var(--plumb)" stroke-width="2.5"></circle>`;
  by("fortnight-read").textContent = words;
  chart.setAttribute("aria-valuenow", String(hour));
  chart.setAttribute("aria-valuetext", words);
}
async function near(event) {
  if (!hours || hoursOf !== wideClass()) await read(hour);
  const svg = event.target.closest("svg"), box = svg.getBoundingClientRect(), scale = Number(svg.getAttribute("width")) / box.width;
  const x = (event.clientX - box.left) * scale, y = (event.clientY - box.top) * scale;
  const off = (one) => Math.abs(one.x - x) + 1e4 * Math.max(one.top - y, y - one.base, 0);  // of two weeks that under the hand
  let best = 0;
  for (let n = 1; n < hours.length; n++) if (off(hours[n]) < off(hours[best])) best = n;
  read(best);
}
const HOURS = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 24, PageDown: -24, Home: -999, End: 999 };

// ---- all together --------------------------------------------------------------------------------------------------------
function begin() {
  lying.clear();
  if (!by("under") || !scene()) return;
  tilt = Number(scene().dataset.tilt);
  view = by("view-field").value || "side";
  for (const one of all(".scripted")) one.hidden = false;
  by("draw-key").hidden = true;
  const radio = document.querySelector("input[name=habit]:checked");
  chosen = radio ? radio.value : null;
  const key = location.hash.startsWith("#w-") ? decodeURIComponent(location.hash.slice(3)) : "";
  if (key && by("sheet-slip").hidden) open(key, true);
  setTimeout(() => ask({ quiet: true }), 600);
}
document.addEventListener("pointerdown", hold);
document.addEventListener("pointermove", (event) => { if (held) tip(pointed(event)); });
for (const end of ["pointerup", "pointercancel"])
  document.addEventListener(end, () => { if (held) { held = false; toSay(); } });
document.addEventListener("keydown", pressed);
document.addEventListener("keyup", (event) => {
  if (event.key === "c") lay(false);
  if (event.target.closest && event.target.closest(".handle") && (event.key in STEPS || event.key === "Home" || event.key === "End")) toSay();
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && shut()) { event.preventDefault(); return; }
  const chart = event.target.closest && event.target.closest("#fortnight");
  if (chart && event.key in HOURS) { event.preventDefault(); read(hours ? hour + HOURS[event.key] : 0); }
});
document.addEventListener("click", (event) => {
  if (!event.target.closest || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const number = event.target.closest("[data-w]"), swap = event.target.closest("[data-view]");
  const stance = event.target.closest("[data-tilt]"), step = event.target.closest("[data-step]");
  if (number) { event.preventDefault(); open(number.dataset.w, true); return; }
  if (swap) { event.preventDefault(); swapView(swap.dataset.view); return; }
  if (stance && stance.closest(".stances")) { event.preventDefault(); tip(Number(stance.dataset.tilt), false); return; }
  if (step) { tip(tilt + Number(step.dataset.step), false); return; }
  if (event.target.id === "sheet-slip-close") shut();
  if (event.target.id === "before-key") lay(event.target.getAttribute("aria-pressed") !== "true");
});
document.addEventListener("input", (event) => {
  const at = event.target;
  if (at.id === "tilt-field" && at.value !== "") { tip(Number(at.value), false); }
  if (at.id === "person-field") person();
  if (at.name === "habit") choose(at.value);
});
document.addEventListener("change", (event) => { if (event.target.id === "day-field") swapView(view, false); });
document.addEventListener("submit", (event) => { if (event.target.id === "under") { event.preventDefault(); tip(Number(by("tilt-field").value), false); } });
document.addEventListener("pointermove", (event) => { if (event.target.closest && event.target.closest("#fortnight svg")) near(event); });
for (const query_ of ["(max-width:767px)", "(max-width:1100px)"])
  matchMedia(query_).addEventListener("change", () => { if (scene()) { turn(tilt); swapView(view, false); } });
document.addEventListener("swapped", begin);
begin();
