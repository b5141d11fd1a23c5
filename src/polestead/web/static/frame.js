// The frame of every leaf: forms without a new page, what changed on the server, the slip, a server that is gone.
// Everything here is a convenience: without it forms post and pages load.
const by = (id) => document.getElementById(id);
const IDLE_MS = 2500, WORKING_MS = 500, GONE_MS = 5000;

export function announce(words) { by("announce").textContent = words; }

// ---- the slip -------------------------------------------------------------------------------------------------
let opener = null;
export const slip = {
  // Show nodes (or a text) in the slip; the focus goes there, and back to what opened it.
  open(content, from = document.activeElement) {
    opener = from;
    by("slip-body").replaceChildren(...[content].flat());
    by("slip").hidden = false;
    by("slip-body").focus({ preventScroll: true });
  },
  close() {
    if (by("slip").hidden) return false;
    by("slip").hidden = true;
    if (opener && opener.isConnected) opener.focus();
    opener = null;
    document.dispatchEvent(new CustomEvent("slip-closed"));
    return true;
  },
};
by("slip-close").addEventListener("click", () => slip.close());
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  if (slip.close()) event.preventDefault();
  const menu = document.querySelector("details.are[open]");
  if (menu) { menu.open = false; menu.querySelector("summary").focus(); }
});
document.addEventListener("click", (event) => {
  for (const menu of document.querySelectorAll("details.are[open]")) if (!menu.contains(event.target)) menu.open = false;
  const term = event.target.closest("a.term");
  if (!term || !term.dataset.line) return;
  event.preventDefault();
  const head = document.createElement("h2"), line = document.createElement("p");
  head.textContent = term.dataset.term || term.textContent;
  line.textContent = term.dataset.line;
  slip.open([head, line], term);
});

// ---- putting a newer page in place of this one -------------------------------------------------------------------
// Only what differs is replaced; what was typed and not sent stays, and so does the focus.
const typed = (field) => field.type !== "hidden" && (field.tagName === "SELECT"
  ? [...field.options].some((one) => one.selected !== one.defaultSelected)
  : field.type === "checkbox" || field.type === "radio" ? field.checked !== field.defaultChecked : field.value !== field.defaultValue);

// Where an element without a name of its own stands, so that the one in its place is found again.
function trail(element) {
  const steps = [];
  for (let at = element; at && at.parentElement; at = at.parentElement) {
    if (at !== element && at.id) return { from: at.id, steps };
    steps.unshift([...at.parentElement.children].indexOf(at));
  }
  return null;
}
const followed = (way) => way && way.steps.reduce((at, step) => at && at.children[step], by(way.from));

// What the newer page needs and this one has not: a page that waited for its answer had no drawing to style or to move.
function furnish(page) {
  const name = (one) => one.getAttribute("href") || one.getAttribute("src");
  const here = new Set([...document.head.querySelectorAll("link,script")].map(name));
  for (const one of page.head.querySelectorAll("link[rel=stylesheet],script[src]")) {
    if (here.has(name(one))) continue;
    const more = document.createElement(one.tagName);
    for (const { name: key, value } of one.attributes) more.setAttribute(key, value);
    document.head.append(more);
  }
}

export function swap(page, sent = null) {
  plain();
  furnish(page);
  const kept = [];
  for (const field of document.querySelectorAll("main input[id],main select[id],main textarea[id]"))
    if (typed(field) && !(sent && sent.contains(field))) kept.push([field.id, field.value]);
  const opened = [...document.querySelectorAll("details[id][open]")].map((one) => one.id);
  const at = document.activeElement && document.activeElement.id;
  const way = document.activeElement && !at && document.activeElement !== document.body ? trail(document.activeElement) : null;
  const caret = at && "selectionStart" in document.activeElement ? document.activeElement.selectionStart : null;
  for (const id of ["head", "told", "main", "foot"]) {
    const old = by(id), fresh = page.getElementById(id);
    if (old && fresh && old.outerHTML !== fresh.outerHTML) old.replaceWith(document.adoptNode(fresh));
  }
  for (const [id, value] of kept) { const field = by(id); if (field) { field.value = value; field.dispatchEvent(new Event("input", { bubbles: true })); } }
  for (const id of opened) { const one = by(id); if (one) one.open = true; }
  for (const name of ["serial", "boot", "of"]) document.body.dataset[name] = page.body.dataset[name];
  document.title = page.title;
  document.documentElement.dataset.scheme = page.documentElement.dataset.scheme;
  if (page.documentElement.dataset.type) document.documentElement.dataset.type = page.documentElement.dataset.type;
  else delete document.documentElement.dataset.type;
  const field = at ? by(at) : followed(way);
  if (field && field !== document.activeElement) {
    field.focus({ preventScroll: true });
    if (caret !== null && "setSelectionRange" in field && field.type !== "number") try { field.setSelectionRange(caret, caret); } catch { /* a kind without a caret */ }
  }
  scripted();
  document.dispatchEvent(new CustomEvent("swapped"));
  sideways();
}

const parsed = async (reply) => new DOMParser().parseFromString(await reply.text(), "text/html");
const html = (reply) => (reply.headers.get("content-type") || "").startsWith("text/html");

async function again() {
  const reply = await fetch(location.href, { headers: { accept: "text/html" } });
  if (!html(reply)) return;
  if (reply.redirected && new URL(reply.url).pathname !== location.pathname) { location.assign(reply.url); return; }
  swap(await parsed(reply));
}

// ---- forms ------------------------------------------------------------------------------------------------------
document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (form.method !== "post" || form.dataset.plain !== undefined || event.defaultPrevented) return;
  event.preventDefault();
  const body = new URLSearchParams(new FormData(form, event.submitter));
  let reply;
  try { reply = await fetch(form.getAttribute("action"), { method: "POST", body }); } catch { gone(); return; }
  if (!html(reply)) { announce(await reply.text()); return; }
  let page = await parsed(reply);
  if (reply.status === 403 && page.body.dataset.boot !== document.body.dataset.boot) {  // another server is there: once more, with its token
    const token = page.querySelector("input[name=token]");
    if (token) {
      for (const held of document.querySelectorAll("input[name=token]")) held.value = token.value;
      body.set("token", token.value);
      try { reply = await fetch(form.getAttribute("action"), { method: "POST", body }); } catch { gone(); return; }
      page = await parsed(reply);
    }
  }
  const went = new URL(reply.url);
  if (reply.redirected && went.pathname !== location.pathname) { location.assign(reply.url); return; }
  const words = page.querySelector("[data-announce]");  // before its parts are moved over
  swap(page, form);
  if (words) announce(words.textContent);
  document.dispatchEvent(new CustomEvent("kept", { detail: { status: reply.status, url: reply.url } }));
});

// ---- what changed on the server; a server that is gone, and one that is there again -----------------------------------
let waiting = 0, away = false, heard = null;
function gone() {
  if (!away) { away = true; by("gone").hidden = false; }
  plan(GONE_MS);
}
function plan(ms) { clearTimeout(waiting); waiting = setTimeout(ask, ms); }
async function ask() {
  let state;
  try {
    const reply = await fetch("/state", { headers: { accept: "application/json" } });
    if (reply.status === 401) { location.reload(); return; }
    state = await reply.json();
  } catch { gone(); return; }
  const here = document.body.dataset;
  if (String(state.serial) !== here.serial || state.boot !== here.boot) {
    try { await again(); } catch { gone(); return; }
    if (!state.working && heard !== null && state.said !== heard) announce(state.said);
  }
  heard = state.said;
  if (away) { away = false; by("gone").hidden = true; announce("The laptop answers again."); }
  working(state.working);
  jobs(state.jobs);
  document.dispatchEvent(new CustomEvent("state", { detail: state }));
  plan(state.working || state.jobs.length ? WORKING_MS : document.hidden ? 4 * IDLE_MS : IDLE_MS);
}
function ruled(bar, job, words) {
  const line = bar.querySelector("[role=progressbar]");
  line.setAttribute("aria-valuemax", job.of || 1);
  line.setAttribute("aria-valuenow", job.step);
  line.querySelector("rect").setAttribute("width", `${job.of ? (100 * job.step) / job.of : 0}%`);
  words.textContent = job.said;
}
function working(job) {
  const bar = by("working");
  if (!bar) return;
  bar.hidden = !job;
  if (job) ruled(bar, job, by("working-words"));
}
function jobs(all) {  // each bar that stands on this page, by its work's name
  for (const job of all) {
    const bar = by(`job-${job.name}`);
    if (bar) ruled(bar, job, bar.querySelector(".words"));
  }
}
by("try-now").addEventListener("click", ask);
document.addEventListener("visibilitychange", () => { if (!document.hidden) plan(0); });

// ---- what is wider than the page says so, in words and by a broken edge -----------------------------------------------
const WIDE = ".scroll,.scrolls,.field,.changed";
function sideways() {
  for (const one of document.querySelectorAll(WIDE)) {
    const room = one.scrollWidth - one.clientWidth;
    let words = one.querySelector(":scope > .more-words");
    if (!one.checkVisibility() || room <= 3) { if (words) words.remove(); one.classList.remove("more-right"); continue; }
    if (!words) {
      words = document.createElement("p");
      words.className = "more-words";
      words.ariaHidden = "true";  // whoever hears the page hears all of it
      one.prepend(words);
      one.addEventListener("scroll", sideways, { passive: true });
    }
    const over = one.scrollLeft >= room - 3;
    words.textContent = over ? "← more to the left" : "more to the right →";
    one.classList.toggle("more-right", !over);
  }
}
// As the server drew it, so that only what differs is put in its place.
function plain() {
  for (const words of document.querySelectorAll(".more-words")) words.remove();
  for (const one of document.querySelectorAll(".more-right")) one.classList.remove("more-right");
}
addEventListener("resize", sideways);
document.addEventListener("toggle", sideways, true);
document.addEventListener("kept", sideways);

function scripted() {
  for (const one of document.querySelectorAll(".with-script")) one.hidden = false;
  for (const one of document.querySelectorAll(".without-script")) one.hidden = true;
  const print = by("print");
  if (print) print.onclick = () => window.print();
}
scripted();
sideways();
plan(WORKING_MS);
