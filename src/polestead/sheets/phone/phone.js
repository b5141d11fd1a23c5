"use strict";
(function () {
  const line = document.getElementById("line"), said = document.getElementById("said");
  const name = "polestead " + document.body.dataset.homestead;
  const boxes = Array.from(document.querySelectorAll("input[data-step]"));
  const gates = Array.from(document.querySelectorAll(".gate"));
  const rules = Array.from(document.querySelectorAll("li[data-rule]"));  // they hold for ever: older files ticked them
  const fields = Array.from(document.querySelectorAll("input[data-key]"));
  const clean = (text) => text.replace(/[,;\s]+/g, " ").trim();
  const part = (gate, which) => gate.querySelector("[data-part=" + which + "]");
  const filled = (gate) => {
    const on = clean(part(gate, "on").value), by = clean(part(gate, "by").value), why = clean(part(gate, "why").value);
    if (why) { return "not needed: " + why; }
    return on && by ? on + " " + by.replace(/ /g, ".") : "";
  };
  const waits = new Map();  // by box or gate: the gates of other cards before it, as the page tells them
  for (const one of [...boxes, ...gates]) {
    const card = one.closest("[data-waits]");
    const names = card ? JSON.parse(card.dataset.waits) : [];
    waits.set(one, names.map((wanted) => gates.find((gate) => gate.dataset.gate === wanted)).filter(Boolean));
  }
  const own = (one) => gates.filter((gate) => gate.dataset.act === one.dataset.act && Number(one.dataset.step) > Number(gate.dataset.after));
  const before = (one) => waits.get(one).concat(own(one));
  const unsigned = (one) => before(one).filter((gate) => !filled(gate));
  const gateBefore = (one) => unsigned(one)[0];
  const notFilled = (gate) => " (its gate is not filled: " + gate.dataset.gate + ")";
  const empty = (gate) => { for (const which of ["on", "by", "why"]) { part(gate, which).value = ""; } };

  const lines = new Map();  // by box or gate: the words beside it
  [...boxes, ...gates].forEach((one, nth) => {
    if (!before(one).length) { return; }
    const words = document.createElement("p");
    words.className = "wanted pencil";
    words.id = "wanted-" + nth;
    one.closest("li").append(words);
    const told = one.matches(".gate") ? one.querySelectorAll("input") : [one];
    told.forEach((input) => input.setAttribute("aria-describedby", words.id));
    lines.set(one, words);
  });
  const cure = document.getElementById("cure"), pour = cure && clock(JSON.parse(cure.dataset.law));
  function lock() {
    for (const [one, words] of lines) {
      const wanted = unsigned(one).map((gate) => gate.dataset.gate);
      words.hidden = !wanted.length;
      words.textContent = wanted.length ? "Locked until signed: " + wanted.join(", ") + "." : "";
    }
    gates.forEach((gate) => {
      const shut = !filled(gate) && Boolean(gateBefore(gate));
      gate.querySelectorAll("input").forEach((input) => { input.readOnly = shut; });
    });
  }

  function runs(steps) {  // 1 2 3 5 -> 1-3 5
    const told = [];
    for (const step of steps) {
      const last = told[told.length - 1];
      if (last && last[1] === step - 1) { last[1] = step; } else { told.push([step, step]); }
    }
    return told.map(([a, b]) => (a === b ? String(a) : a + "-" + b)).join(" ");
  }
  function told() {
    const acts = new Map();
    for (const box of boxes) {
      if (box.checked) {
        if (!acts.has(box.dataset.act)) { acts.set(box.dataset.act, []); }
        acts.get(box.dataset.act).push(Number(box.dataset.step));
      }
    }
    const parts = Array.from(acts, ([act, steps]) => act + " " + runs(steps));
    for (const gate of gates) { if (filled(gate)) { parts.push("gate " + gate.dataset.gate + " " + filled(gate)); } }
    for (const field of fields) { if (clean(field.value)) { parts.push("built " + field.dataset.act + "/" + field.dataset.key + " = " + clean(field.value)); } }
    if (pour && pour.words()) { parts.push(pour.words()); }
    return "ticks: " + (parts.join(", ") || "none");
  }
  function keep() {
    lock();
    line.value = told();
    try { localStorage.setItem(name, line.value); } catch (refused) { /* the line itself is the copy */ }
  }
  function take(text) {
    const body = text.trim().replace(/^ticks:\s*/i, "");
    const unknown = [];
    boxes.forEach((box) => { box.checked = false; });
    gates.forEach(empty);
    fields.forEach((field) => { field.value = ""; });  // a line that tells no pour leaves the clock as it is
    const steps = [], ruled = [];
    for (const one of body.split(",").map((word) => word.trim()).filter((word) => word && word !== "none")) {
      const day = one.startsWith("poured ") && pour ? pour.take(one) : null;
      if (day !== null) { if (day) { unknown.push(one + " (" + day + ")"); } continue; }
      if (!takeGate(one) && !takeBuilt(one) && !takeSteps(one, steps, ruled)) { unknown.push(one); }
    }
    gates.filter((gate) => filled(gate) && gateBefore(gate)).forEach((gate) => {
      unknown.push("gate " + gate.dataset.gate + notFilled(gateBefore(gate)));
      empty(gate);
    });
    steps.forEach((box) => { if (!gateBefore(box)) { box.checked = true; } else { unknown.push(box.dataset.act + " " + box.dataset.step + notFilled(gateBefore(box))); } });
    keep();
    return unknown.concat(ruled);
  }
  function takeGate(one) {
    const gate = gates.filter((each) => one.startsWith("gate " + each.dataset.gate + " ")).sort((a, b) => b.dataset.gate.length - a.dataset.gate.length)[0];
    if (!gate) { return false; }
    const rest = one.slice(("gate " + gate.dataset.gate + " ").length).trim();
    if (rest.startsWith("not needed: ")) { part(gate, "why").value = rest.slice(12); return true; }
    const cut = rest.lastIndexOf(" ");
    if (cut < 1) { return false; }
    part(gate, "on").value = rest.slice(0, cut);
    part(gate, "by").value = rest.slice(cut + 1);
    return true;
  }
  function takeBuilt(one) {
    const found = one.match(/^built (\S+)\/(\S+) = (.+)$/);
    const field = found && fields.find((each) => each.dataset.act === found[1] && each.dataset.key === found[2]);
    if (!field) { return false; }
    field.value = found[3];
    return true;
  }
  function takeSteps(one, steps, ruled) {
    const found = one.match(/^(.+?) ((?:\d+(?:-\d+)? ?)+)$/);
    if (!found) { return false; }
    const act = boxes.filter((box) => box.dataset.act === found[1]);
    if (!act.length) { return false; }
    const none = rules.filter((rule) => rule.dataset.act === found[1]).map((rule) => Number(rule.dataset.rule));
    const taken = [], left = [];
    for (const run of found[2].trim().split(/ +/)) {
      const [first, last] = run.split("-").map(Number);
      for (let nth = first; nth <= (last || first); nth += 1) {
        const box = act.find((each) => Number(each.dataset.step) === nth);
        if (box) { taken.push(box); } else if (none.includes(nth)) { left.push(nth); } else { return false; }
      }
    }
    steps.push(...taken);
    if (left.length) { ruled.push(found[1] + " " + runs(left) + " (rules that hold for ever: they have no box)"); }
    return true;
  }
  const tell = (words) => { said.textContent = words; };

  boxes.forEach((box) => box.addEventListener("click", (pressed) => {
    const gate = box.checked && gateBefore(box);
    if (gate) { pressed.preventDefault(); tell("Not yet: " + gate.querySelector("strong").textContent + " Fill the gate " + gate.dataset.gate + " on its card first (" + gate.closest("article").querySelector("h2").textContent + "): day and name, or why it is not needed."); return; }
    tell("");
    keep();
  }));
  gates.forEach((gate) => gate.addEventListener("input", () => {
    const was = line.value;  // as it stood when the gate was still filled
    let gone = 0;
    if (!filled(gate)) {  // a gate taken back takes back what stands behind it
      boxes.forEach((box) => { if (before(box).includes(gate) && box.checked) { box.checked = false; gone += 1; } });
      gates.forEach((other) => { if (waits.get(other).includes(gate) && filled(other)) { empty(other); gone += 1; } });
    }
    keep();
    if (gone) { offer("The gate " + gate.dataset.gate + " is empty: " + gone + (gone === 1 ? " tick or gate" : " ticks and gates") + " behind it went with it.", was); }
  }));
  function offer(words, was) {  // what went is given back with one key
    tell(words);
    const back = document.createElement("button");
    back.type = "button";
    back.textContent = "Give it back";
    back.addEventListener("click", () => { take(was); tell("Given back."); });
    said.append(back);
  }
  fields.forEach((field) => field.addEventListener("input", keep));
  document.getElementById("take").addEventListener("click", () => {
    const unknown = take(line.value);
    tell(unknown.length ? "Not taken: " + unknown.join("; ") + "." : "Taken in.");
  });
  document.getElementById("copy").addEventListener("click", () => {
    line.focus(); line.select();
    try { if (document.execCommand("copy")) { tell("Copied."); return; } } catch (refused) { /* said below */ }
    tell("The line is marked: copy it by hand.");
  });
  function clock(law) {
    const poured = document.getElementById("poured"), air = document.getElementById("air"), counted = document.getElementById("counted");
    const DAY = 86400000, LONGEST = 730, MOST = 120;
    const read = (word) => {  // worth of a day as typed; null: no figure
      const found = word.replace("\u2212", "-").match(/^(-?\d+(?:\.\d+)?) *\u00b0? *([CF]?)$/i);
      if (!found) { return null; }
      const scale = (found[2] || law.scale).toUpperCase(), at = Math.floor(Number(found[1])) - law.first[scale], shares = law.shares[scale];
      const [least, most] = law.within[scale];
      if (Number(found[1]) < least || Number(found[1]) > most) { return null; }
      return { share: at < 0 ? 0 : shares[Math.min(at, shares.length - 1)], freezes: Number(found[1]) <= law.freezes[scale] };
    };
    const day = (start, nth) => { const on = new Date(start + nth * DAY); return on.toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC" }); };
    const today = () => { const now = new Date(); return Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()); };
    const began = (word) => {  // the day's start; nought where there is no such day
      const start = /^\d{4}-\d{2}-\d{2}$/.test(word) ? Date.parse(word + "T00:00:00Z") : NaN;
      return !Number.isNaN(start) && new Date(start).toISOString().startsWith(word) && start >= 0 ? start : NaN;
    };
    const listed = (text) => text.split(/[,;\n]+|\s{2,}/).map((one) => one.trim()).filter(Boolean);
    const wrongDay = (word) => (Number.isNaN(began(word)) ? "there is no such day: write it as 2026-05-15" : began(word) > today() ? "that day is still to come" : "");
    const wrongAir = (start, typed) => {
      const wrong = typed.filter((one) => one !== "?" && !read(one)), over = Math.min(Math.round((today() - start) / DAY), MOST);
      if (wrong.length) { return "Not read: " + wrong.join(", ") + ". A comma between the days; degrees " + law.scale + ", or ?."; }
      return typed.length > over ? "More days are typed than are over since the pour: " + over + "." : "";
    };
    const unit = (one) => (one === "?" ? one : one.replace("\u2212", "-").replace(/ *\u00b0? *([CF]?)$/i, (all, scale) => " " + (scale || law.scale).toUpperCase()));
    function words() {  // as the line of ticks has it; days that are not understood stay out of it
      if (wrongDay(poured.value)) { return ""; }
      const typed = listed(air.value), told = wrongAir(began(poured.value), typed) ? [] : typed.map(unit);
      return "poured " + poured.value + (told.length ? ": " + told.join("; ") : "");
    }
    function taken(one) {  // empty: taken; else why not
      const [on, ...rest] = one.slice("poured ".length).split(":");
      const typed = listed(rest.join(":")), why = wrongDay(on.trim()) || wrongAir(began(on.trim()), typed);
      if (!why) { poured.value = on.trim(); air.value = typed.join(", "); count(); }
      return why;
    }
    const rounded = (days) => String(Math.floor(days * 10 + 1e-6) / 10);
    function count() {
      const start = began(poured.value), typed = listed(air.value);
      try { localStorage.setItem(name + " pour", JSON.stringify([poured.value, air.value])); } catch (refused) { /* it is typed again */ }
      if (Number.isNaN(start)) { counted.textContent = typed.length ? "Type the day of the pour first." : ""; return; }
      const why = wrongDay(poured.value), wrong = why ? "Not counted: " + why + "." : wrongAir(start, typed);
      if (wrong) { counted.textContent = wrong; return; }
      const left = law.marks.map(([words, wants]) => ({ words: words, wants: wants, told: wants === null ? words + ": never with this mix" : "" }));
      let sum = 0, froze = false;
      const reach = (nth, mark) => {
        for (const one of left) { if (!one.told && sum >= one.wants - 1e-6) { one.told = one.words + ": " + mark + day(start, nth); } }
      };
      typed.forEach((one, nth) => {
        const found = one === "?" ? { share: 0, freezes: false } : read(one);
        froze = froze || (found.freezes && sum < law.young);
        sum += found.share;
        reach(nth + 1, "reached ");
      });
      const had = sum;
      for (let nth = typed.length; nth < LONGEST && left.some((one) => !one.told); nth += 1) {
        sum += law.months[new Date(start + nth * DAY).getUTCMonth()];
        reach(nth + 1, "~ not before ");
      }
      left.forEach((one) => { if (!one.told) { one.told = one.words + ": not within two years of this season's air"; } });
      counted.textContent = (froze ? "It was at freezing while young: load nothing on it; have it looked at and tested. " : "") +
        typed.length + " days typed, worth " + rounded(had) + " at " + law.usual + ".\n" + left.map((one) => one.told[0].toUpperCase() + one.told.slice(1) + ".").join("\n");
    }
    [poured, air].forEach((one) => one.addEventListener("input", () => { count(); keep(); }));
    function asTyped() {  // as it was left, what is not understood with it
      try { [poured.value, air.value] = JSON.parse(localStorage.getItem(name + " pour") || '["", ""]'); } catch (refused) { /* nothing kept */ }
      count();
    }
    return { words: words, take: taken, again: asTyped };
  }
  document.querySelectorAll("[hidden].scripted").forEach((one) => { one.hidden = false; });
  let kept = null;
  try { kept = localStorage.getItem(name); } catch (refused) { kept = null; }
  if (kept) {
    const lost = take(kept.split(", ").filter((one) => !/^(ticks: )?poured /.test(one)).join(", "));  // the clock keeps its own, as typed
    if (lost.length) { tell("Not taken from what was kept here: " + lost.join("; ") + "."); }
  }
  if (pour) { pour.again(); }
  keep();
})();
