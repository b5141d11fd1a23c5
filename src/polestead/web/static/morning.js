// The morning: workings in the slip, larger and smaller by a key, and a line that is worked again as the morning goes on.
import { slip, swap } from "/static/frame.js";

const AGAIN_MS = 10 * 60 * 1000;

document.addEventListener("click", (event) => {
  const link = event.target.closest("a.why-slip");
  if (link) {
    const from = document.querySelector(link.getAttribute("href"));
    if (!from) return;
    event.preventDefault();
    slip.open(from.querySelector("article").cloneNode(true), link);
    return;
  }
  const step = event.target.closest("button[data-step]");
  if (!step) return;
  const field = step.parentElement.querySelector("input");
  const now = parseFloat(field.value || field.dataset.last) || 0;
  const most = field.id === "charge" ? 100 : 60, least = field.id === "charge" ? 0 : 1;
  // the first press takes the last reading as it stands; from then on it goes by steps
  field.value = String(Math.min(most, Math.max(least, field.value ? now + Number(step.dataset.step) : now)));
  field.dispatchEvent(new Event("input", { bubbles: true }));
});

// The hours go on: a line left open is read again, unless somebody is typing or the laptop is gone.
setInterval(async () => {
  if (document.hidden || location.pathname !== "/morning" || !document.getElementById("gone").hidden || !document.getElementById("slip").hidden) return;
  try {
    const reply = await fetch("/morning");
    if (reply.ok && new URL(reply.url).pathname === "/morning") swap(new DOMParser().parseFromString(await reply.text(), "text/html"));
  } catch { /* the frame says that it is gone */ }
}, AGAIN_MS);
